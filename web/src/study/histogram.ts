// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The picture of a promise's margins over all machines. 0 is always in it: how far the machines are from breaking the promise is
// what it is looked at for. Left of 0 it is broken.
import type { Histogram } from './wire';

/** The picture's size and the room for its words, in its own units; 16 of them are as wide as the text is high. */
export const wide = 288;
export const tall = 76;
const top = 18;
export const ground = tall - 16;
const edge = 6;
const wordOfBroken = 56;
const wordOfHeld = 42;
/** Bars are seen however narrow what they stand for is, and however few. */
const least = 1.5;

export interface Bar {
  x: number;
  y: number;
  width: number;
  height: number;
  broken: boolean;
}

export interface Picture {
  zero: number;
  bars: Bar[];
}

/** From values to places: all of the histogram and 0 beside it, with room for the word on either side where it is said. */
function placing({ from, to, counts }: Histogram): (value: number) => number {
  const broken = from < 0;
  const held = to > 0;
  let low = Math.min(from, 0);
  let high = Math.max(to, 0);
  if (high === low) high = low + 1;
  const inner = wide - 2 * edge;
  const needed = (room: number, rest: number) => (rest * room) / (inner - room);
  if (broken && counts.length > 0) low = Math.min(low, -needed(wordOfBroken, high));
  if (held) high = Math.max(high, needed(wordOfHeld, -low));
  return (value) => edge + (inner * (value - low)) / (high - low);
}

export function picture(histogram: Histogram): Picture {
  const { from, to, counts } = histogram;
  const at = placing(histogram);
  const zero = at(0);
  const most = Math.max(1, ...counts);
  const step = (to - from) / Math.max(1, counts.length);
  const bars: Bar[] = [];
  counts.forEach((count, i) => {
    if (count === 0) return;
    const height = Math.max(least, ((ground - top) * count) / most);
    const a = at(from + i * step);
    const b = Math.max(at(from + (i + 1) * step), a + least);
    const bar = (x: number, end: number, broken: boolean) =>
      bars.push({ x, width: end - x, y: ground - height, height, broken });
    if (b <= zero) bar(a, b, true);
    else if (a >= zero) bar(a, b, false);
    else {
      bar(a, zero, true);
      bar(zero, b, false);
    }
  });
  return { zero, bars };
}
