// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// How curves look. Two neighbours differ in colour and in dash, so that neither grey print nor an eye that mixes up red
// and green confuses them. Each colour has a contrast of 4.5 to 1 at least against its sheet.

const onLight = ['#0b5fa5', '#b04a00', '#00705a', '#8a3d86', '#6a5a00', '#44505c'];
const onDark = ['#6fb7f5', '#ffa05c', '#3fcda6', '#e79bdc', '#d9c350', '#c3ccd4'];
const dashes: number[][] = [[], [9, 4], [3, 3], [12, 3, 3, 3], [6, 6], [15, 5]];

export interface Pen {
  colour: string;
  dash: number[];
}

/** The pen of a panel's curve, counted from 0. */
export function penOf(i: number, dark: boolean): Pen {
  const colours = dark ? onDark : onLight;
  const round = Math.floor(i / colours.length);
  return {
    colour: colours[i % colours.length] ?? '#888888',
    dash: dashes[(i + round) % dashes.length] ?? [],
  };
}

/** What a canvas must know of the page's tokens. */
export interface Tones {
  ink: string;
  quiet: string;
  rule: string;
  broken: string;
  sheet: string;
  font: string;
  /** Pixels for one rem, so that text of the canvas grows with the page's. */
  rem: number;
}

export function tonesNow(): Tones {
  const style = getComputedStyle(document.documentElement);
  const token = (name: string) => style.getPropertyValue(`--${name}`).trim();
  const rem = parseFloat(style.fontSize) || 16;
  return {
    ink: token('ink'),
    quiet: token('quiet'),
    rule: token('rule'),
    broken: token('broken'),
    sheet: token('sheet'),
    font: `${Math.round(0.75 * rem)}px ${token('face')}`,
    rem,
  };
}
