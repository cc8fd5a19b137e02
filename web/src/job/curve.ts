// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The points of a datasheet's curve as lines of text: `5 L/min, 0.8 bar`.
import type { Json } from '../api';
import { textOf } from '../tree';

export function pointsOf(curve: Json): string {
  if (!Array.isArray(curve)) return textOf(curve);
  return curve.map((point) => (Array.isArray(point) ? point.map(textOf).join(', ') : textOf(point))).join('\n');
}

export function curveOf(text: string): Json {
  const points = text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => line.split(/\s*[,;]\s*/));
  return points.length > 0 ? points : null;
}
