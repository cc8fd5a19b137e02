// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Knobs that are kept at the top, for this tab and this job.

const keyOf = (job: string) => `poise pins ${job}`;

export class Pins {
  keys = $state.raw<string[]>([]);
  constructor(private readonly job: string) {
    try {
      const list: unknown = JSON.parse(sessionStorage.getItem(keyOf(job)) ?? '[]');
      if (Array.isArray(list)) this.keys = list.filter((each): each is string => typeof each === 'string');
    } catch {
      // A browser that keeps nothing begins with none.
    }
  }
  has(key: string): boolean {
    return this.keys.includes(key);
  }
  turn(key: string): void {
    this.keys = this.has(key) ? this.keys.filter((each) => each !== key) : [...this.keys, key];
    try {
      sessionStorage.setItem(keyOf(this.job), JSON.stringify(this.keys));
    } catch {
      // They hold for now.
    }
  }
}
