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

export function measured(what: Measured | null, digits = 3): string {
  if (!what || what.value === null) return '–';
  return what.unit ? `${figure(what.value, digits)} ${what.unit}` : figure(what.value, digits);
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
