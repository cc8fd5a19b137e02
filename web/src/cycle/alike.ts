// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Curves that lie on each other on the screen share a pen and a line of the legend: two rams on one line, a gauge beside
// them.
import type { Panel } from '../api';
import type { Values } from './values';

export interface Alike {
  /** Places of its curves in the panel; the first one is drawn. */
  curves: number[];
  /** Number of its pen. */
  pen: number;
}

/** `R1 force` and `R2 force` read as `R1, R2 force`. */
export function together(labels: string[]): string {
  const cut = labels.map((label) => [label.split(' ')[0] ?? '', label.split(' ').slice(1).join(' ')] as const);
  const what = cut[0]?.[1] ?? '';
  if (what === '' || cut.some((each) => each[1] !== what)) return labels.join(', ');
  return `${cut.map((each) => each[0]).join(', ')} ${what}`;
}

function rangeOf(panel: Panel): number {
  let low = Infinity;
  let high = -Infinity;
  for (const curve of panel.curves) {
    for (const value of curve.values) {
      if (value === null) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return high > low ? high - low : 0;
}

function apart(a: Values, b: Values, most: number): boolean {
  return a.some((value, i) => Math.abs((value ?? 0) - (b[i] ?? 0)) > most);
}

/** Groups the curves of a panel. `pens` remembers by name who had which pen, so that colours stay while values change. */
export function alike(panel: Panel, pens: Map<string, number>): Alike[] {
  const near = 0.002 * rangeOf(panel);
  const groups: Alike[] = [];
  panel.curves.forEach((curve, i) => {
    const same = groups.find((group) => {
      const first = panel.curves[group.curves[0] ?? 0];
      return first && !apart(first.values, curve.values, near);
    });
    if (same) same.curves.push(i);
    else groups.push({ curves: [i], pen: -1 });
  });
  const nameOf = (group: Alike) => panel.curves[group.curves[0] ?? 0]?.name ?? '';
  const taken = new Set<number>();
  for (const group of groups) {
    const before = pens.get(nameOf(group));
    if (before === undefined || taken.has(before)) continue;
    group.pen = before;
    taken.add(before);
  }
  for (const group of groups) {
    if (group.pen >= 0) continue;
    while (taken.has(++group.pen));
    taken.add(group.pen);
    pens.set(nameOf(group), group.pen);
  }
  return groups;
}
