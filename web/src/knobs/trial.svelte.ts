// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Runs of the job with values that are not saved, one at a time. While the hand moves, a short run is waited for, so that
// the curves keep following; a long one is stopped by the next. What was let go waits for nothing.
import { tick } from 'svelte';
import * as api from '../api';
import { bench, tab } from '../state.svelte';

const patience = 1500; // milliseconds that a run may take before the next one stops it
const slow = 1000;

interface Wanted {
  edits: api.Edit[];
  number: number;
}

let runners = 0;

export class Trial {
  /** Of the newest trial that came back; null: the job as it is saved is shown. */
  answer = $state.raw<api.Answer | null>(null);
  progress = $state.raw<api.Progress | null>(null);
  trouble = $state<string | null>(null);
  #number = 0;
  #shown = 0;
  #wanted: Wanted | null = null;
  /** When the run under way was begun; nobody waits for its answer once it is given up. */
  #begun: number | null = null;
  #gone = new AbortController();
  /** What the server knows the runs by. A new name after a run was stopped: a late stop meets no later run. */
  #runner = `${tab}-trial-${++runners}`;
  #waiting = 0;
  #told = new Map<number, () => void>();

  constructor(private readonly job: string) {}

  /** Tries edits; with `drawn` at once, and calls it when their curves, or newer ones, are on the screen. */
  want(edits: api.Edit[], drawn?: () => void): void {
    const number = ++this.#number;
    if (drawn) this.#told.set(number, drawn);
    this.#wanted = { edits, number };
    if (this.#begun === null || drawn) void this.#run();
    else if (!this.#waiting) {
      const spent = performance.now() - this.#begun;
      this.#waiting = window.setTimeout(() => {
        this.#waiting = 0;
        if (this.#wanted) void this.#run();
      }, Math.max(0, patience - spent));
    }
  }

  /** Calls back as soon as what was wanted last is on the screen; it waits for nothing from now on. */
  whenDrawn(drawn: () => void): void {
    if (this.#shown === this.#number) {
      requestAnimationFrame(() => drawn());
      return;
    }
    this.#told.set(this.#number, drawn);
    if (this.#wanted) void this.#run();
  }

  /** Back to the job as it is saved; what is being run on trial is stopped. */
  end(): void {
    if (this.#begun !== null) this.#giveUp();
    window.clearTimeout(this.#waiting);
    this.#waiting = 0;
    this.#number += 1;
    this.#shown = this.#number;
    this.#wanted = null;
    void tick().then(() => this.#tell(this.#shown));
    this.answer = null;
    this.progress = null;
    this.trouble = null;
  }

  #giveUp(): void {
    void api.stop(this.job, this.#runner).catch(() => undefined);
    this.#gone.abort();
    this.#gone = new AbortController();
    this.#runner = `${tab}-trial-${++runners}`;
    this.#begun = null;
  }

  async #run(): Promise<void> {
    const wanted = this.#wanted;
    if (!wanted) return;
    window.clearTimeout(this.#waiting);
    this.#waiting = 0;
    this.#wanted = null;
    const begun = performance.now();
    this.#begun = begun;
    const clock = window.setInterval(() => void this.#watch(begun), slow / 2);
    try {
      const asked = { tab: this.#runner, trial: wanted.edits, signals: bench.signals };
      const answer = await api.prove(this.job, bench.units, asked, this.#gone.signal);
      if (wanted.number > this.#shown) await this.#show(answer, wanted.number);
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return;
      if (!(error instanceof api.Refusal)) throw error;
      if (error.status !== 499 && wanted.number > this.#shown) this.trouble = error.sentence;
    } finally {
      window.clearInterval(clock);
      if (this.#begun === begun) {
        this.#begun = null;
        this.progress = null;
        if (this.#wanted) void this.#run();
      }
    }
  }

  async #show(answer: api.Answer, number: number): Promise<void> {
    this.#shown = number;
    this.answer = answer;
    this.trouble = null;
    await tick();
    this.#tell(number);
  }

  #tell(number: number): void {
    requestAnimationFrame(() => {
      for (const [wanted, drawn] of this.#told) {
        if (wanted > number) continue;
        this.#told.delete(wanted);
        drawn();
      }
    });
  }

  async #watch(begun: number): Promise<void> {
    if (performance.now() - begun < slow) return;
    const progress = await api.progress(this.job, this.#runner).catch(() => null);
    if (this.#begun === begun && progress?.running) this.progress = progress;
  }
}
