// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What has been read on a machine, as it is typed: kept in this browser for the job, weighed on the server after every stroke.
import * as api from '../api';
import { recall, remember } from '../kept';
import { bench } from '../state.svelte';
import type { CanRead, History, Watch, Weighed } from './wire';

const untilTyped = 150;

/** A reading with the unit that was shown beside it as it was typed. */
interface Typed {
  text: string;
  unit: string;
}
interface Kept {
  typed: Record<string, Typed>;
  /** Readings beside the usual ones. */
  more: string[];
  history: History;
}

const nothing = (): Kept => ({
  typed: {},
  more: [],
  history: { since: '', after: '', came: 'unknown', level: 'no', filter: 'no' },
});

/** What its moment not coming is called on the way to the server. */
export const none = 'none';
const isBare = (text: string) => /[\d.,]\s*$/.test(text);

function sentenceOf(error: unknown): string {
  if (!(error instanceof api.Refusal)) throw error;
  return error.sentence;
}

export class Sheet {
  can = $state.raw<CanRead | null>(null);
  weighed = $state.raw<Weighed | null>(null);
  trouble = $state<string | null>(null);
  /** An answer is on its way. */
  weighing = $state(false);
  /** What was cleared last. */
  cleared = $state.raw<Kept | null>(null);
  #kept = $state<Kept>(nothing());
  #asked = 0;
  #clock = 0;
  #gone: AbortController | null = null;

  constructor(
    private readonly job: string,
    private readonly path: string,
  ) {
    this.#kept = { ...nothing(), ...recall<Partial<Kept>>('readings', path) };
  }

  get history(): History {
    return this.#kept.history;
  }
  get more(): string[] {
    return this.#kept.more;
  }
  get count(): number {
    return Object.keys(this.#kept.typed).length;
  }
  /** Those that the job no longer has. */
  get lost(): string[] {
    const there = new Set(this.can?.watches.map(({ key }) => key));
    return this.can ? Object.keys(this.#kept.typed).filter((key) => !there.has(key)) : [];
  }

  /** As it stands in its field; with its unit where another one is shown by now. */
  textOf({ key, unit }: Watch): string {
    const typed = this.#kept.typed[key];
    if (!typed) return '';
    return typed.unit !== unit && isBare(typed.text) ? `${typed.text.trim()} ${typed.unit}` : typed.text;
  }
  isOn(watch: Watch): boolean {
    return watch.usual || this.#kept.more.includes(watch.key) || watch.key in this.#kept.typed;
  }

  type({ key, unit }: Watch, text: string): void {
    if (text.trim()) this.#kept.typed[key] = { text, unit };
    else delete this.#kept.typed[key];
    this.#changed();
  }
  say(said: Partial<History>): void {
    Object.assign(this.#kept.history, said);
    this.#changed();
  }
  add(key: string): void {
    if (!this.#kept.more.includes(key)) this.#kept.more.push(key);
    this.#changed();
  }
  takeOff(key: string): void {
    this.#kept.more = this.#kept.more.filter((each) => each !== key);
    delete this.#kept.typed[key];
    this.#changed();
  }
  forgetLost(): void {
    for (const key of this.lost) delete this.#kept.typed[key];
    this.#changed();
  }
  clear(): void {
    this.cleared = $state.snapshot(this.#kept);
    this.#kept = nothing();
    this.#changed(false);
  }
  bringBack(): void {
    if (this.cleared) this.#kept = this.cleared;
    this.#changed();
  }

  #changed(anew = true): void {
    if (anew) this.cleared = null;
    remember('readings', this.path, $state.snapshot(this.#kept));
    window.clearTimeout(this.#clock);
    this.#clock = window.setTimeout(() => void this.weigh(), untilTyped);
  }

  /** What can be read, and then what has been read says. */
  async load(): Promise<void> {
    try {
      this.can = await api.canRead(this.job, bench.units);
      this.trouble = null;
    } catch (error) {
      this.trouble = sentenceOf(error);
      return;
    }
    await this.weigh();
  }

  /** Of answers that come in another order than they were asked for, the newest counts. */
  async weigh(): Promise<void> {
    if (!this.can) return;
    const asked = ++this.#asked;
    this.#gone?.abort();
    this.#gone = new AbortController();
    this.weighing = true;
    const readings = this.can.watches
      .map((watch) => ({ key: watch.key, text: this.textOf(watch) }))
      .filter(({ text }) => text !== '');
    try {
      const weighed = await api.weigh(this.job, bench.units, { ...this.history, readings }, this.#gone.signal);
      if (asked !== this.#asked) return;
      this.weighed = weighed;
      this.trouble = null;
    } catch (error) {
      if (asked === this.#asked) this.trouble = sentenceOf(error);
    } finally {
      if (asked === this.#asked) this.weighing = false;
    }
  }
}
