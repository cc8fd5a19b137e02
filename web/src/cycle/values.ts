// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Reading curves, steps and frames at a moment.
import type { Panel, RunEvent, RunStep } from '../api';
import { figure, longTime, span } from '../text';

export type Values = (number | null)[];

/** Index of the last time that is not after `t`; 0 before all of them. */
function indexAt(times: number[], t: number): number {
  let low = 0;
  let high = times.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((times[middle] ?? Infinity) <= t) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The value between two rows lies on the straight line between them, as the curve is drawn. */
export function valueAt(times: number[], values: Values, t: number): number | null {
  const i = indexAt(times, t);
  const [t0, t1] = [times[i], times[i + 1]];
  const [v0, v1] = [values[i] ?? null, values[i + 1] ?? null];
  if (v0 === null || v1 === null || t0 === undefined || t1 === undefined || t <= t0 || t1 <= t0) return v0;
  return v0 + ((v1 - v0) * (t - t0)) / (t1 - t0);
}

export function nearestFrame(frames: number[], t: number): number {
  const i = indexAt(frames, t);
  const [here, next] = [frames[i], frames[i + 1]];
  return here !== undefined && next !== undefined && next - t < t - here ? i + 1 : i;
}

/** The step that a moment lies in. At a boundary it is the one that begins. */
export function stepAt(steps: RunStep[], t: number): RunStep | undefined {
  return steps.filter((step) => step.begin <= t + 1e-9).at(-1) ?? steps[0];
}

export const seconds = (t: number) => (t < longTime ? `${t.toFixed(t < 10 ? 2 : 1)} s` : span(t, true));

/** When an event was: in the server's figures, a long time in minutes and hours. */
export const when = (event: RunEvent) => (event.time < longTime ? event.text : span(event.time, true));

/** `3.2 s, step clamp`. */
export function moment(steps: RunStep[], t: number): string {
  const step = stepAt(steps, t);
  return step ? `${seconds(t)}, step ${step.name}` : seconds(t);
}

/** Where a shift with Shift and arrow goes: the next or last beginning or end of a step. */
export function boundary(steps: RunStep[], t: number, way: 1 | -1, end: number): number {
  const all = [...new Set([0, ...steps.flatMap((step) => [step.begin, step.end]), end])].sort((a, b) => a - b);
  const near = 1e-6;
  return way > 0 ? (all.find((each) => each > t + near) ?? end) : (all.filter((each) => each < t - near).at(-1) ?? 0);
}

/** A figure of a curve; what is small beside `whole`, its greatest, is the noise of a calculation and reads as zero. */
export function shown(value: number | null, whole: number): string {
  if (value === null) return '–';
  return Math.abs(value) < 5e-4 * whole ? '0' : figure(value);
}

/** A value of the server's as text; the last rounding of a calculation reads as zero. */
export function calm(text: string): string {
  const [number, ...unit] = text.split(' ');
  return Math.abs(Number(number)) < 2e-5 ? ['0', ...unit].join(' ') : text;
}

export function greatest(values: Values): number {
  return values.reduce<number>((most, value) => Math.max(most, Math.abs(value ?? 0)), 0);
}

/** Panels under keys that stay the same from run to run; a second panel of a quantity has its number. */
export function keyed(panels: Panel[]): { key: string; panel: Panel }[] {
  const seen = new Map<string, number>();
  return panels.map((panel) => {
    const name = `${panel.title} ${panel.unit}`;
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    return { key: `${name} ${count}`, panel };
  });
}
