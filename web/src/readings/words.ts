// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What readings are called on the page.
import type { Beside, Instrument, Watch } from './wire';

const how: Record<Instrument, string> = {
  gauge: '',
  'portable gauge': 'portable gauge',
  switch: 'lamp of the switch',
  rule: 'where it stands',
  'stop-watch': 'takes for nearly all of its way',
  bucket: 'oil out of it, by bucket and stop-watch',
  thermometer: 'temperature in the reservoir',
};

/** `K1` of `K1.position`: what one goes to. */
export const placeOf = ({ at, instrument }: Watch) =>
  instrument === 'thermometer' ? 'Oil' : at.replace(/\.(position|time|flow)$/, '');

export const howOf = ({ instrument }: Watch) => how[instrument];

/** `at the end of "press"` in two: under the heading of its step the second one need not be seen. */
export function momentOf({ moment, step }: Watch): [string, string] {
  const end = [` of "${step}"`, ` in "${step}"`].find((each) => ` ${moment}`.endsWith(each));
  if (!end) return [moment, ''];
  return [` ${moment}`.slice(0, -end.length).trim(), end.trim()];
}

/** The sign and the words of where a reading lies; never colour alone. */
export const signs: Record<Beside, { sign: string; words: string }> = {
  within: { sign: '✓', words: 'within' },
  above: { sign: '▲', words: 'too high' },
  below: { sign: '▼', words: 'too low' },
  missing: { sign: '✕', words: 'a sound machine comes to it' },
  unexpected: { sign: '✕', words: 'a sound machine does not come to it' },
};

/** `62 %`; no share is rounded to nothing or to all. */
export const whole = (share: number) =>
  share < 0.01 ? 'under 1 %' : share > 0.995 ? 'over 99 %' : `${Math.round(100 * share)} %`;

export const idOf = (key: string) => `reading-${key.replace(/[^\w.-]+/g, '-')}`;
