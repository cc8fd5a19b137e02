// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Crossings and bends of a drawing. A net is a list of pieces [x1, y1, x2, y2], level or upright; both drawings are
// counted by this one file.

const near = 1e-3;
const same = (a, b) => Math.abs(a - b) < near;
const level = ([, y1, , y2]) => same(y1, y2);

/** The net's pieces joined end to end where they overlap or follow each other: what one sees as one stroke. */
export function strokes(pieces) {
  const long = pieces.filter(([x1, y1, x2, y2]) => !same(x1, x2) || !same(y1, y2))
    .map(([x1, y1, x2, y2]) => [Math.min(x1, x2), Math.min(y1, y2), Math.max(x1, x2), Math.max(y1, y2)]);
  const merged = [];
  for (const lies of [true, false]) {
    const [along, across] = lies ? [0, 1] : [1, 0];
    const sorted = long.filter((p) => level(p) === lies)
      .sort((p, q) => (same(p[across], q[across]) ? p[along] - q[along] : p[across] - q[across]));
    for (const piece of sorted) {
      const last = merged.at(-1);
      const follows = last && level(last) === lies && same(last[across], piece[across]) &&
        piece[along] <= last[along + 2] + near;
      if (follows) last[along + 2] = Math.max(last[along + 2], piece[along + 2]);
      else merged.push([...piece]);
    }
  }
  return merged;
}

/** Where a level and an upright stroke cross inside both. */
function crossing(p, q) {
  if (level(p) === level(q)) return null;
  const [flat, up] = level(p) ? [p, q] : [q, p];
  const x = up[0], y = flat[1];
  const inside = x > flat[0] + near && x < flat[2] - near && y > up[1] + near && y < up[3] - near;
  return inside ? `${x.toFixed(2)} ${y.toFixed(2)}` : null;
}

/** Points where strokes of different nets cross, pair of nets by pair of nets. */
export function crossings(nets) {
  const all = nets.map(strokes);
  let count = 0;
  for (let i = 0; i < all.length; ++i) {
    for (let k = 0; k < i; ++k) {
      const points = new Set();
      for (const p of all[i]) for (const q of all[k]) points.add(crossing(p, q));
      points.delete(null);
      count += points.size;
    }
  }
  return count;
}

/** Corners: two strokes of one net end in one point, and nothing else of the net is there. */
export function bends(nets) {
  let count = 0;
  for (const net of nets.map(strokes)) {
    for (const flat of net.filter(level)) {
      for (const up of net.filter((s) => !level(s))) {
        const ends = [flat[0], flat[2]].some((x) => same(x, up[0])) && [up[1], up[3]].some((y) => same(y, flat[1]));
        if (ends) ++count;
      }
    }
  }
  return count;
}
