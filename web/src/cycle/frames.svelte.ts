// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The drawings of a run, moment by moment: one request at a time, and after it the one that is wanted then.
import * as api from '../api';

interface Wanted {
  job: string;
  units: api.Units;
  run: number;
  frame: number;
}

const kept = 240;

export class Frames {
  /** The newest drawing that has come. */
  svg = $state.raw('');
  trouble = $state<string | null>(null);
  #drawn = new Map<string, string>();
  #series = '';
  #wanted: Wanted | null = null;
  #asking = false;
  #lost = false;

  /** `onlost`: the server keeps only the latest runs, and this one is no longer among them. */
  constructor(private readonly onlost: () => void) {}

  want(wanted: Wanted): void {
    const series = `${wanted.job} ${wanted.units} ${wanted.run}`;
    if (series !== this.#series) this.#drawn.clear();
    this.#series = series;
    this.#wanted = wanted;
    const there = this.#drawn.get(String(wanted.frame));
    if (there !== undefined) {
      this.#wanted = null;
      this.svg = there;
    } else if (!this.#asking) void this.#ask();
  }

  /** Nobody looks any more: what still comes is dropped. */
  end(): void {
    this.#wanted = null;
    this.#series = '';
  }

  async #ask(): Promise<void> {
    this.#asking = true;
    try {
      while (this.#wanted) {
        const wanted = this.#wanted;
        this.#wanted = null;
        await this.#draw(wanted, this.#series);
      }
    } finally {
      this.#asking = false;
    }
  }

  async #draw({ job, units, run, frame }: Wanted, series: string): Promise<void> {
    try {
      const svg = await api.drawing(job, units, run, frame);
      if (series !== this.#series) return;
      this.#keep(String(frame), svg);
      this.svg = svg;
      this.trouble = null;
      this.#lost = false;
    } catch (error) {
      if (!(error instanceof api.Refusal)) throw error;
      if (series !== this.#series) return;
      // Run again once; where the next run is lost as well, that is said.
      if (error.status === 404 && !this.#lost) {
        this.#lost = true;
        this.onlost();
      } else this.trouble = error.sentence;
    }
  }

  #keep(frame: string, svg: string): void {
    if (this.#drawn.size >= kept) {
      const oldest = this.#drawn.keys().next().value;
      if (oldest !== undefined) this.#drawn.delete(oldest);
    }
    this.#drawn.set(frame, svg);
  }
}
