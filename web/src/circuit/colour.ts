// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Pressure colours on a dark page. The server's scale goes from a light blue to a dark wine red, for white paper. In the
// dark its lightness is turned over, hue kept: low pressure is nearest to the page, high pressure stands out most.
// Oklab as published by Björn Ottosson, "A perceptual color space for image processing" (2020), matrices from memory.

type Three = [number, number, number];

const toLinear = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
const toScreen = (c: number) => (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055);

function oklab([r, g, b]: Three): Three {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

function linear([light, a, b]: Three): Three {
  const l = (light + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (light - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (light - 0.0894841775 * a - 1.291485548 * b) ** 3;
  return [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
}

const onScreen = (c: Three) => c.every((each) => each >= -0.0005 && each <= 1.0005);

function hex(colour: Three): string {
  const two = (c: number) =>
    Math.round(255 * toScreen(Math.min(1, Math.max(0, c))))
      .toString(16)
      .padStart(2, '0');
  return `#${colour.map(two).join('')}`;
}

function parts(colour: string): Three | null {
  const long = /^#([0-9a-f]{6})$/i.exec(colour)?.[1];
  if (!long) return null;
  const part = (at: number) => toLinear(parseInt(long.slice(at, at + 2), 16) / 255);
  return [part(0), part(2), part(4)];
}

const palest = 0.67;
const darkest = 0.3;
const known = new Map<string, string>();

/** The colour that stands in the dark for one that was chosen for white paper. What is no colour stays as it is. */
export function inTheDark(colour: string): string {
  const before = known.get(colour);
  if (before) return before;
  const from = parts(colour);
  if (!from) return colour;
  const [light, a, b] = oklab(from);
  const share = Math.min(1, Math.max(0, (palest - light) / (palest - darkest)));
  const turned = 0.62 + 0.31 * share;
  let keep = 1;
  let to = linear([turned, a, b]);
  while (!onScreen(to) && keep > 0) {
    keep -= 0.05;
    to = linear([turned, a * keep, b * keep]);
  }
  const result = hex(to);
  known.set(colour, result);
  return result;
}
