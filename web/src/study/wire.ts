// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What `poise open` tells of a study: of all machines within the tolerances, or of all faults. Texts are in the units shown.

/** `readings`: what each fault would show; what came of it is asked for elsewhere. */
export type StudyKind = 'spread' | 'faults' | 'readings';

/** How far a study is, and what is known by now. */
export interface Told<A> {
  running: boolean;
  /** It runs once another study has come to its end. */
  waits: boolean;
  /** What runs is of the job as it is now. */
  runs_this_text: boolean;
  /** Of what is wanted, 0 … 1. */
  share: number;
  /** Seconds, at the pace so far. */
  left: number | null;
  /** Why it could not begin or go on; empty where it could. */
  trouble: string;
  /** The answer is one about the job as it is now. */
  of_this_text: boolean;
  /** Rises with every other answer; 0: there is none yet. */
  number: number;
  /** Null also where the page has the one of this number. */
  answer: A | null;
}

/** A share of all machines with the ends of its 95 % interval, 0 … 1. */
export interface Share {
  share: number;
  low: number;
  high: number;
  text: string;
}

export interface Margin {
  value: number;
  text: string;
}

export interface Histogram {
  from: number;
  to: number;
  unit: string;
  counts: number[];
}

export interface Driver {
  /** `V2.setting`, `oil temperature`. */
  name: string;
  share: number;
  /** What more of it does. */
  more: 'takes room' | 'gives room' | 'both';
  text: string;
}

export interface Nearest {
  found: boolean;
  inside: boolean;
  /** 1: the ends of the tolerances; null where nothing was found. */
  reach: number | null;
  text: string;
  /** `off`: of the value's tolerance, −1 its lower end, 1 the upper one. The text begins with the name. */
  changes: { name: string; off: number; text: string }[];
}

export interface SpreadPromise {
  name: string;
  promised: string;
  quantity: string;
  unit: string;
  nominal: { share: number | null; text: string; answer: 'held' | 'broken' | 'not seen' };
  broken: number;
  not_seen: number;
  /** Broken without a number that says by how much: what was waited for never came. */
  without_number: number;
  share_broken: Share;
  margins: { least: Margin; p05: Margin; median: Margin; p95: Margin; most: Margin } | null;
  histogram: Histogram | null;
  worst: { machine: number; text: string } | null;
  drivers: Driver[];
  /** The share that no single value explains; null where there are too few machines to tell. */
  together: number | null;
  nearest: Nearest | null;
}

export interface SpreadAnswer {
  kind: 'spread';
  title: string;
  wanted: number;
  done: number;
  kept: number;
  broken: number;
  not_proven: number;
  answer: Share;
  shape: string;
  inputs: { name: string; stated: string; low: string; high: string; from: string }[];
  worst: { machine: number; promise: string; text: string } | null;
  promises: SpreadPromise[];
}

export const severities = ['can hurt someone', 'can damage', 'works badly', 'not proven', 'nothing breaks'] as const;
export type Severity = (typeof severities)[number];

export interface FaultSize {
  size: 'slight' | 'grave';
  change: string;
  outcome: 'held' | 'broken' | 'not proven';
  breaks: { name: string; text: string }[];
  /** Why the run ended early; empty where it did not. */
  ended: string;
}

export interface Fault {
  number: number;
  name: string;
  part: string;
  fault: string;
  sentence: string;
  source: string;
  change: string;
  sizes: FaultSize[];
  breaks_from: string | null;
  severity: Severity;
  /** `when`: `before it breaks`. */
  shown: { by: 'gauge' | 'switch' | 'motion' | 'nothing'; when: string; text: string };
  protects: string[];
  left_pressed: string[];
}

export interface FaultsAnswer {
  kind: 'faults';
  title: string;
  wanted: number;
  done: number;
  faults: Fault[];
  pairs: Fault[];
  /** Faults that a part's kind knows and this job has nothing to change for. */
  not_applicable: { name: string; reason: string }[];
}
