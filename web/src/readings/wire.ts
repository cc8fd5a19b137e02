// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What `poise open` tells of readings: what can be read on a job's machine, and what those typed say. Texts are in the units shown.

export const waysToCome = ['unknown', 'slowly', 'suddenly', 'after work', 'in the cold'] as const;
export type Came = (typeof waysToCome)[number];
export type Looked = 'no' | 'good' | 'bad';

/** What people say of the machine before anything is measured. */
export interface History {
  since: string;
  after: string;
  came: Came;
  level: Looked;
  filter: Looked;
}

export type Instrument = 'gauge' | 'portable gauge' | 'switch' | 'rule' | 'stop-watch' | 'bucket' | 'thermometer';

/** One thing that can be read, and when. */
export interface Watch {
  /** `G1 at the end of "press"`: it stays the same while the job changes elsewhere. */
  key: string;
  /** `G1`, `R1.A`, `K1.position`, `oil`. */
  at: string;
  /** `at the end of "press"`; empty for the oil. */
  moment: string;
  /** Name and place of its step; null for the oil. */
  step: string | null;
  place: number | null;
  instrument: Instrument;
  unit: string;
  sound: string;
  /** False: on a sound machine its moment does not come. */
  comes: boolean;
  /** Null: not worked out yet, or its moment does not come. */
  band: string | null;
  accuracy: string;
  /** On the sheet of commissioning. */
  usual: boolean;
}

export interface CanRead {
  revision: number;
  /** What each fault would show has been worked out. */
  ready: boolean;
  /** How many things are run for that. */
  runs: number;
  baseline: { file: string; date: string; by: string; readings: number; trouble: string } | null;
  notice: string;
  watches: Watch[];
}

export type Beside = 'within' | 'above' | 'below' | 'missing' | 'unexpected';

export interface Group {
  /** `V2 spring relaxed: setting 88.0 bar`, the likeliest first. */
  suspects: string[];
  sentence: string;
  /** The readings that it explains, with a semicolon between. */
  why: string;
  against: string[];
  share: number;
  is_sound: boolean;
}

export interface Advice {
  key: string;
  name: string;
  /** What comes before a fitting is opened for it; may be empty. */
  before: string;
  shows: string[];
}

export interface Diagnosis {
  /** That nothing looked for explains the readings; empty where something does. */
  doubt: string;
  ask_first: string[];
  groups: Group[];
  next: Advice[];
}

export interface Weighed {
  revision: number;
  ready: boolean;
  complaints: { key: string; sentence: string }[];
  marks: { key: string; mark: Beside }[];
  /** Null: what faults would show is not worked out yet. */
  answer: Diagnosis | null;
}
