// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What goes over the wire between the page and `poise open`. All times are seconds from the first step.

export type Units = 'metric' | 'us';
/** A place in the job's tree: `["parts", "V3", "setting"]`, `["steps", 2, "lasts"]`. */
export type Place = (string | number)[];
export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
export type Table = { [key: string]: Json };

export interface InBoth {
  metric: string;
  us: string;
}

export interface Parameter {
  name: string;
  quantity: string;
  example: string;
  meaning: string;
  source: string;
  needed: boolean;
  default: InBoth | null;
  range: InBoth | null;
  words: string[] | null;
  set_by_steps: boolean;
  instead: string | null;
  curve: { x: string; y: string } | null;
}

export interface Rule {
  name: string;
  sentence: string;
  source: string;
  /** What becomes of it where it is not kept; none where only a person can confirm it. Faults have none. */
  harm?: string | null;
}

export interface KindPort {
  name: string;
  domain: 'oil' | 'motion';
  meaning: string;
  pilot: boolean;
}

export interface Kind {
  kind: string;
  title: string;
  family: string;
  sentence: string;
  law: string;
  source: string;
  role: 'source' | 'pressure_limit' | 'one_way' | 'line' | 'actuator' | 'reservoir' | 'none';
  symbol: string;
  ports: KindPort[];
  parameters: Parameter[];
  rules: Rule[];
  faults: Rule[];
}

export interface Quantity {
  example: string;
  metric: string;
  us: string;
  offered: string[];
}

export interface Start {
  name: string;
  title: string;
  sentence: string;
}

export interface Words {
  kinds: Kind[];
  oil: Parameter[];
  quantities: { [quantity: string]: Quantity };
  starts: Start[];
}

export interface Folder {
  folder: string;
  jobs: { name: string; title: string }[];
  opened: string | null;
}

export interface Complaint {
  line: number;
  column: number;
  sentence: string;
  at: Place | null;
}

export interface Field {
  name: string;
  at: Place;
  /** As typed: a text, a plain number, or the points of a curve; null: not in the file. */
  text: Json;
  number: number | null;
  unit: string | null;
  /** The allowed range in that unit. */
  low: number | null;
  high: number | null;
  /** The value in the units shown, if it was typed in others. */
  reading: string | null;
  default: string | null;
}

export interface PartPort {
  name: string;
  meaning: string;
  domain: 'oil' | 'motion';
  joined: string[];
  plugged: boolean;
  needed: boolean;
}

export interface Part {
  tag: string;
  kind: string;
  title: string;
  note: string;
  /** Whether it is the hose or tube of a line. */
  line: boolean;
  at: Place;
  fields: Field[];
  ports: PartPort[];
}

export interface Signal {
  name: string;
  quantity: string;
  /** In the units shown. */
  unit: string;
  part: string;
}

export interface Settable {
  name: string;
  part: string;
  meaning: string;
  words: string[] | null;
  quantity: string;
  example: string;
}

export interface Page {
  name: string;
  path: string;
  revision: number;
  units: Units;
  text: string;
  undo: string | null;
  redo: string | null;
  tree: Table;
  title: string;
  complaints: Complaint[];
  oil: Field[];
  parts: Part[];
  open: { port: string; meaning: string }[];
  signals: Signal[];
  settable: Settable[];
  ports: string[];
  runnable: boolean;
}

export type Edit =
  | { do: 'set'; at: Place; value: Json }
  | { do: 'remove'; at: Place }
  | { do: 'add'; at: Place; value: Json; place?: number }
  | { do: 'move'; at: Place; place: number };

export type Change =
  | { what: 'onto'; here: string[]; there: string[]; kind: string }
  | { what: 'branch'; port: string; kind: string }
  | { what: 'first'; kind: string }
  | { what: 'block'; name: string }
  | { what: 'join'; ports: string[] }
  | { what: 'part_from' | 'plug' | 'unplug'; port: string }
  | { what: 'hose' | 'tube' | 'direct'; line: number }
  | { what: 'replace'; part: string; kind: string }
  | { what: 'remove' | 'duplicate' | 'settle' | 'turn_round'; part: string }
  | { what: 'rename'; part: string; tag: string }
  | { what: 'nudge'; part: string; by: [number, number] };

export interface Sides {
  here: string[];
  there: string[];
}

export interface Measured {
  quantity: string;
  value: number | null;
  unit: string;
  si: number | null;
}

export interface Finding {
  name: string;
  held: boolean;
  answer: 'held' | 'broken' | 'not seen';
  promised: string;
  found: string;
  margin: Measured | null;
  share: number | null;
  time: Measured | null;
  step: string | null;
  part: string | null;
}

export interface Books {
  close: boolean;
  oil: { at_start: Measured; drawn: Measured; residual: Measured; share: number | null; allowed: number };
  energy: {
    shaft: Measured;
    flow_heat: Measured;
    friction_heat: Measured;
    delivered: Measured;
    stored_gain: Measured;
    residual: Measured;
    share: number | null;
    allowed: number;
  };
}

export interface RuleNotKept {
  name: string;
  harm: 'can hurt someone' | 'can damage' | 'works badly' | 'worth knowing';
  sentence: string;
  remedy: string;
  otherwise: string;
  source: string;
  part: string | null;
  also: string[];
  time: Measured | null;
  step: string | null;
  waived: string | null;
}

export interface Verdict {
  title: string;
  answer: 'held' | 'broken' | 'not proven';
  holds: boolean;
  findings: Finding[];
  steps: { name: string; begin: Measured; end: Measured; finished: boolean }[];
  rules: RuleNotKept[];
  cautions: string[];
  people: string[];
  books: Books;
  halt: { time: Measured; sentence: string } | null;
  notice: string;
}

export interface Panel {
  title: string;
  unit: string;
  quantity: string;
  time: number[];
  curves: { name: string; label: string; values: (number | null)[] }[];
  limits: { label: string; value: number; never_above: boolean; windows: [number, number][] }[];
}

export interface RunStep {
  name: string;
  begin: number;
  end: number;
  finished: boolean;
}

export interface RunEvent {
  time: number;
  text: string;
  part: string;
  sentence: string;
}

export type Outcome = 'held' | 'broken' | 'not proven' | 'cannot run';

export interface Answer {
  run: number;
  revision: number;
  outcome: Outcome;
  line: string;
  complaints: Complaint[];
  verdict: Verdict | null;
  notice: string;
  duration: number;
  steps: RunStep[];
  events: RunEvent[];
  /** The moments that the drawing can show. */
  frames: number[];
  panels: Panel[];
  milliseconds: number;
}

export interface Progress {
  running: boolean;
  share: number;
  /** Seconds. */
  left: number | null;
}

export interface Legend {
  stops: { value: number; text: string; colour: string }[];
  flow: string;
}

export interface PartNow {
  tag: string;
  kind: string;
  title: string;
  sentence: string;
  law: string;
  source: string;
  rules: Rule[];
  faults: Rule[];
  curve: string | null;
  now: { name: string; text: string }[];
}
