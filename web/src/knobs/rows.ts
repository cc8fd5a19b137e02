// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The settings of a job as knobs: what each is called, where it stands, in which group it is looked for.
import type { Field, Page, Parameter, Place, Words } from '../api';
import { plain } from '../text';

type Group = 'settings' | 'flows' | 'loads' | 'sizes' | 'oil' | 'times' | 'others';

export const groups: { group: Group; title: string }[] = [
  { group: 'settings', title: 'Settings of valves' },
  { group: 'flows', title: 'Flows' },
  { group: 'loads', title: 'Loads' },
  { group: 'sizes', title: 'Sizes' },
  { group: 'oil', title: 'Oil' },
  { group: 'times', title: 'Times' },
  { group: 'others', title: 'Other data of the parts' },
];

export interface Knob {
  key: string;
  at: Place;
  /** "V3", or "oil". */
  owner: string;
  /** "Setting". */
  name: string;
  about: string;
  meaning: string;
  /** For the history: "setting of V3". */
  says: string;
  group: Group;
  /** As typed in the file; null: left at its default. */
  text: string | null;
  /** What counts now, the default where nothing was typed. */
  counts: string;
  /** In the units shown, where it was typed in others. */
  reading: string | null;
  words: string[] | null;
  low: number | null;
  high: number | null;
  quantity: string;
}

export const keyOf = (at: Place) => JSON.stringify(at);

/** `210 bar` is 210 and bar. */
export function parsed(text: string): { number: number; unit: string } | null {
  const found = /^\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)\s*(.*?)\s*$/.exec(text);
  if (!found) return null;
  const number = Number(found[1]);
  return Number.isFinite(number) ? { number, unit: found[2] ?? '' } : null;
}

const isSetting = (name: string) => /(^|_)(setting|settings|turns|pilot_ratio|precharge|opening|position|centre)$/.test(name);
const isDatasheet = (name: string) =>
  /^(rated_|measured_|port_volume|least_|greatest_|response_|leakage)|_volume$|_drop$|efficiency|factor/.test(name);

function groupOf(name: string, parameter: Parameter | undefined, family: string): Group {
  const quantity = parameter?.quantity ?? 'none';
  if (isDatasheet(name)) return 'others';
  if (isSetting(name) || quantity === 'number of turns') return 'settings';
  if (quantity === 'flow' || name.endsWith('flow')) return 'flows';
  if (['force', 'mass', 'torque', 'moment of inertia', 'spring rate'].includes(quantity) || /load/i.test(family)) return 'loads';
  if (['length', 'area', 'volume', 'volume per stroke', 'displacement'].includes(quantity)) return 'sizes';
  if (quantity === 'time' || name.endsWith('_time')) return 'times';
  return 'others';
}

/** The range as its two numbers, where it is said in the unit of the value. */
function within(parameter: Parameter, unit: string): [number | null, number | null] {
  for (const text of parameter.range ? [parameter.range.metric, parameter.range.us] : []) {
    const [low, high] = text.split(/ to | … /).map(parsed);
    if (low && high && (high.unit === unit || low.unit === unit)) return [low.number, high.number];
  }
  return [null, null];
}

function knobOf(field: Field, parameter: Parameter | undefined, owner: string, about: string, family: string): Knob | null {
  if (field.text !== null && typeof field.text === 'object') return null;
  const text = field.text === null ? null : String(field.text);
  const counts = text ?? field.default ?? '';
  const [low, high] = field.low === null && field.high === null && parameter ? within(parameter, parsed(counts)?.unit ?? '') : [field.low, field.high];
  if (!parameter?.words && (parameter?.curve || !parsed(counts))) return null;
  return {
    key: keyOf(field.at),
    at: field.at,
    owner,
    name: plain(field.name),
    about,
    meaning: parameter?.meaning ?? '',
    says: `${plain(field.name).toLowerCase()} of ${owner}`,
    group: groupOf(field.name, parameter, family),
    text,
    counts,
    reading: field.reading,
    words: parameter?.words ?? null,
    low,
    high,
    quantity: parameter?.quantity ?? '',
  };
}

/** All knobs in the order of the parts. */
export function knobsOf(page: Page, words: Words): Knob[] {
  const found: Knob[] = [];
  for (const part of page.parts) {
    const kind = words.kinds.find((each) => each.kind === part.kind);
    for (const field of part.fields) {
      const parameter = kind?.parameters.find((each) => each.name === field.name);
      const knob = knobOf(field, parameter, part.tag, part.note || part.title, kind?.family ?? '');
      if (knob) found.push(knob);
    }
  }
  for (const field of page.oil) {
    const knob = knobOf(field, words.oil.find((each) => each.name === field.name), 'oil', '', '');
    if (knob) found.push({ ...knob, group: 'oil', says: `${knob.name.toLowerCase()} of the oil` });
  }
  return found;
}
