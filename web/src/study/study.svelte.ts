// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A study of the opened job as a room looks at it: asked for once a second for as long as the room is there. It runs on the
// server and goes on whoever looks.
import * as api from '../api';
import { bench } from '../state.svelte';

const pause = 1000;

function sentenceOf(error: unknown): string {
  if (!(error instanceof api.Refusal)) throw error;
  return error.sentence;
}

type Answer = { spread: api.SpreadAnswer; faults: api.FaultsAnswer; readings: never };

export class Study<K extends api.StudyKind> {
  /** Null: not heard of yet. */
  told = $state.raw<api.Told<Answer[K]> | null>(null);
  /** The newest answer, in `units`. */
  answer = $state.raw<Answer[K] | null>(null);
  /** Why it cannot be asked for, and why the last wish was refused, in a sentence. */
  trouble = $state<string | null>(null);
  refused = $state<string | null>(null);
  /** A wish to begin or to stop is on its way. */
  wishing = $state(false);
  #number = 0;
  #units: api.Units | null = null;
  #asked = 0;
  #waiting = 0;

  constructor(
    private readonly job: string,
    private readonly kind: K,
  ) {}

  get running(): boolean {
    return this.told?.running ?? false;
  }

  /** The answer is about an earlier text of the job. */
  get stale(): boolean {
    return this.told !== null && !this.told.of_this_text;
  }

  /** Asks once a second until the function that it returns is called. */
  follow(): () => void {
    const clock = window.setInterval(() => {
      if (!document.hidden && this.#waiting === 0) void this.ask();
    }, pause);
    return () => window.clearInterval(clock);
  }

  /** Of answers that come in another order than they were asked for, the newest counts. */
  async ask(): Promise<void> {
    const asked = ++this.#asked;
    const { units } = bench;
    const known = units === this.#units ? this.#number : 0;
    this.#waiting += 1;
    try {
      const told = await api.study<Answer[K]>(this.job, units, this.kind, known);
      if (asked !== this.#asked) return;
      this.told = told;
      this.trouble = null;
      if (told.number === 0) this.answer = null;
      else if (told.answer) this.answer = told.answer;
      this.#number = told.number;
      this.#units = units;
    } catch (error) {
      const sentence = sentenceOf(error);
      if (asked === this.#asked) this.trouble = sentence;
    } finally {
      this.#waiting -= 1;
    }
  }

  async begin(wanted: number): Promise<void> {
    await this.#wish(() => api.beginStudy(this.job, this.kind, wanted));
  }

  async stop(): Promise<void> {
    await this.#wish(() => api.stopStudy(this.job, this.kind));
  }

  async #wish(wish: () => Promise<unknown>): Promise<void> {
    this.wishing = true;
    this.refused = null;
    try {
      await wish();
      await this.ask();
    } catch (error) {
      this.refused = sentenceOf(error);
    } finally {
      this.wishing = false;
    }
  }
}
