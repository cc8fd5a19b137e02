// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Knobs that are kept at the top, for this tab and this job.
import { keep, kept } from '../kept';

export class Pins {
  keys = $state.raw<string[]>([]);
  constructor(private readonly job: string) {
    this.keys = kept('pins', job);
  }
  has(key: string): boolean {
    return this.keys.includes(key);
  }
  turn(key: string): void {
    this.keys = this.has(key) ? this.keys.filter((each) => each !== key) : [...this.keys, key];
    keep('pins', this.job, this.keys);
  }
}
