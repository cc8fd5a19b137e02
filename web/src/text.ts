// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Words and numbers as people read them.
import type { Measured } from './api';

/** `3 things`, `1 thing`. */
export function count(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}

/** `setting_flow` becomes `Setting flow`. */
export function plain(name: string): string {
  const words = name.replaceAll('_', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Three significant figures, without trailing noise: 187, 18.7, 0.0187. */
export function figure(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return '–';
  const size = Math.abs(value);
  if (size >= 10 ** digits) return String(Math.round(value));
  return String(Number(value.toPrecision(digits)));
}

/** Three significant figures with their zeros, as verdicts give them: 0.360, 7.00, 10988. */
export function exact(value: number): string {
  if (!Number.isFinite(value)) return '–';
  if (value === 0) return '0';
  return Math.abs(value) >= 1000 ? String(Math.round(value)) : value.toPrecision(3);
}

/** From here on, in seconds, a time is read in minutes and hours. */
export const longTime = 300;

/** A long time to the last digit that matters: `5 min 20 s`, `11 h 36 min`; with `fine` also its seconds. */
export function span(seconds: number, fine = false): string {
  const sign = seconds < 0 ? '−' : '';
  const whole = Math.round(Math.abs(seconds));
  const rounded = whole >= 3600 && !fine ? 60 * Math.round(whole / 60) : whole;
  const parts: [number, string][] = [
    [Math.floor(rounded / 3600), 'h'],
    [Math.floor(rounded / 60) % 60, 'min'],
    [rounded % 60, 's'],
  ];
  return sign + (parts.filter(([number]) => number > 0).map(([number, unit]) => `${number} ${unit}`).join(' ') || '0 s');
}

/** How long something still takes. */
export function lasting(seconds: number): string {
  return seconds >= longTime ? span(seconds) : `${Math.ceil(seconds)} s`;
}

/** A value with its unit; `fine`: a long time to the second. */
export function measured(what: Measured | null, fine = false): string {
  if (!what || what.value === null) return '–';
  if (what.unit === 's' && Math.abs(what.value) >= longTime) return span(what.value, fine);
  return what.unit ? `${exact(what.value)} ${what.unit}` : exact(what.value);
}

/** A moment of the cycle; what comes within its first millisecond is its beginning. */
export function moment(what: Measured): string {
  return what.si !== null && Math.abs(what.si) < 1e-3 ? `0 ${what.unit}` : measured(what);
}

/** `1,000`: a count of things, with its thousands apart. */
export const many = (number: number) => number.toLocaleString('en');

/** A share of 1 as `97.3`, in per cent: never rounded up to all or down to none. */
export function percent(share: number): string {
  const value = 100 * share;
  const off = Math.min(value, 100 - value);
  return value.toFixed(off <= 0 ? 0 : off >= 0.1 ? 1 : off >= 0.01 ? 2 : 3);
}

/** Whether a text has all words of a filter, in any case and order. */
export function hasWords(text: string, filter: string): boolean {
  const all = text.toLowerCase();
  return filter.trim().toLowerCase().split(/\s+/).every((word) => all.includes(word));
}

/** A complaint as it is said beside a form: without the advice on how to write it in the file. */
export function beside(sentence: string): string {
  const [what = sentence, ...advice] = sentence.split('; ');
  return /\[\[|\[parts| = /.test(advice.join('; ')) ? what : sentence;
}

/** A file name made of a title: letters and digits with dashes between. */
export function fileName(title: string): string {
  const name = title
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return `${name || 'job'}.toml`;
}
