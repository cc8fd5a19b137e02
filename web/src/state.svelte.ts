// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the page knows and what it looks at. Large answers are raw: they are replaced whole, never changed in place.
import type { Answer, Folder, Page, Place, Progress, Units, Words } from './api';

export type Room = 'job' | 'circuit' | 'cycle' | 'knobs' | 'verdict' | 'spread' | 'faults' | 'readings';
export const rooms: { room: Room; title: string }[] = [
  { room: 'job', title: 'Job' },
  { room: 'circuit', title: 'Circuit' },
  { room: 'cycle', title: 'Cycle' },
  { room: 'knobs', title: 'Knobs' },
  { room: 'verdict', title: 'Verdict' },
  { room: 'spread', title: 'Spread' },
  { room: 'faults', title: 'Faults' },
  { room: 'readings', title: 'Readings' },
];

/** A change that was not written: the place of its field, where it has one, and what was typed there. */
export interface Refused {
  at: Place | null;
  typed: string;
  sentence: string;
}

class Bench {
  words = $state.raw<Words | null>(null);
  folder = $state.raw<Folder | null>(null);

  /** File name of the opened job; null shows the start. */
  job = $state<string | null>(null);
  page = $state.raw<Page | null>(null);
  answer = $state.raw<Answer | null>(null);
  /** The answer is one about the job as it was before it last changed. */
  get stale(): boolean {
    return this.answer !== null && this.page !== null && this.answer.revision !== this.page.revision;
  }

  room = $state<Room>('job');
  units = $state<Units>('metric');
  /** Tag of the selected part. */
  part = $state<string | null>(null);
  /** Counts what a hand selected, so that no late answer selects something else over it. */
  picks = 0;
  select(tag: string | null): void {
    this.part = tag;
    this.picks += 1;
  }
  /** The moment that is looked at, in seconds from the first step. */
  time = $state(0);

  /** A run is under way or about to begin; `progress` says how far once it takes over a second. */
  proving = $state(false);
  progress = $state.raw<Progress | null>(null);
  /** The last run was stopped by hand; the answer, if there is one, is older. */
  stopped = $state(false);
  /** An edit is on its way to the file. */
  saving = $state(false);
  /** The last change, if it was not written. */
  refused = $state.raw<Refused | null>(null);
  /** The file changed on disk and was taken over. */
  takenOver = $state(false);
  /** What went wrong, in a sentence; stands until it is dismissed. */
  trouble = $state<string | null>(null);

  /** Further signals that the run shall bring along as curves. */
  signals = $state.raw<string[]>([]);
}

export const bench = new Bench();

/** One of several tabs on the same job; a later run of the same tab stops an earlier one. */
export const tab = crypto.randomUUID?.() ?? Math.random().toString(36).slice(2);
