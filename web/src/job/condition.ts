// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Conditions as three entries: `C1.A.pressure > 180 bar`, `S1 on`.

export const comparisons = [
  { sign: '>', words: 'above' },
  { sign: '<', words: 'below' },
  { sign: 'on', words: 'is on' },
  { sign: 'off', words: 'is off' },
];

export interface Condition {
  signal: string;
  sign: string;
  value: string;
}

/** None where the text is something else; it is then shown as it is. */
export function parse(text: string): Condition | null {
  if (text.trim() === '') return { signal: '', sign: '>', value: '' };
  const compared = /^\s*(\S*)\s*([<>])\s*(.*?)\s*$/.exec(text);
  if (compared) return { signal: compared[1] ?? '', sign: compared[2] ?? '>', value: compared[3] ?? '' };
  const state = /^\s*(\S+)\s+(on|off)\s*$/.exec(text);
  return state ? { signal: state[1] ?? '', sign: state[2] ?? 'on', value: '' } : null;
}

export function compose({ signal, sign, value }: Condition): string {
  return sign === '<' || sign === '>' ? `${signal} ${sign} ${value}`.trim() : `${signal} ${sign}`;
}
