// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// One panel as a uPlot: curves, and behind them step boundaries, limits and the curves of the saved job.
import uPlot from 'uplot';
import type { Panel, RunStep } from '../api';
import type { Alike } from './alike';
import { longTime, span } from '../text';
import { penOf, type Pen, type Tones } from './pens';

/** What a panel draws now; replaced whole, read at each drawing. */
export interface Scene {
  panel: Panel;
  ghost: Panel | null;
  groups: Alike[];
  steps: RunStep[];
  end: number;
  dark: boolean;
  tones: Tones;
}

function penAt(scene: Scene, curve: number): Pen {
  const group = scene.groups.find((each) => each.curves.includes(curve));
  return penOf(group?.pen ?? curve, scene.dark);
}

/** Gives the plot what has changed, without making it anew. */
export function renew(u: uPlot, scene: Scene): void {
  const drawn = new Set(scene.groups.map((group) => group.curves[0]));
  scene.panel.curves.forEach((_, i) => {
    const series = u.series[i + 1];
    if (!series) return;
    series.show = drawn.has(i);
    series.dash = penAt(scene, i).dash;
  });
  u.setData(dataOf(scene.panel), true);
}

const dataOf = (panel: Panel) =>
  [panel.time, ...panel.curves.map((curve) => curve.values)] as uPlot.AlignedData;

function extent(scene: Scene): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  const see = (value: number | null) => {
    if (value === null || !Number.isFinite(value)) return;
    if (value < low) low = value;
    if (value > high) high = value;
  };
  for (const curve of scene.panel.curves) curve.values.forEach(see);
  for (const curve of scene.ghost?.curves ?? []) curve.values.forEach(see);
  for (const limit of scene.panel.limits) see(limit.value);
  if (low > high) return [0, 1];
  const most = Math.max(Math.abs(low), Math.abs(high));
  if (most < 1e-6) return [-0.05, 1];
  // A curve that stays on one side of zero is seen from zero on, and so is one that does not move: not its noise.
  const flat = high - low < 0.02 * most;
  if (low > 0 && (flat || low < 0.6 * high)) low = 0;
  if (high < 0 && (flat || high > 0.6 * low)) high = 0;
  const size = high - low || Math.abs(high) || 1;
  const range: [number, number] = [low - (low === 0 ? 0.03 : 0.07) * size, high + 0.07 * size];
  // The name of a limit stands beyond it, and has room there.
  for (const limit of scene.panel.limits) {
    if (limit.never_above) range[1] = Math.max(range[1], limit.value + 0.22 * size);
    else range[0] = Math.min(range[0], limit.value - 0.22 * size);
  }
  return range;
}

function line(u: uPlot, points: [number, number][]): void {
  u.ctx.beginPath();
  points.forEach(([t, value], i) => {
    const x = u.valToPos(t, 'x', true);
    const y = u.valToPos(value, 'y', true);
    if (i === 0) u.ctx.moveTo(x, y);
    else u.ctx.lineTo(x, y);
  });
  u.ctx.stroke();
}

/** Of many rows within one column of pixels only the lowest and the highest are drawn. */
function thinned(time: number[], values: (number | null)[], columns: number): [number, number][] {
  const first = time[0] ?? 0;
  const width = ((time[time.length - 1] ?? 0) - first) / Math.max(1, columns);
  const points: [number, number][] = [];
  let column = -1;
  let low: [number, number] | null = null;
  let high: [number, number] | null = null;
  const flush = () => {
    if (low && high) points.push(...(low[0] < high[0] ? [low, high] : low === high ? [low] : [high, low]));
  };
  time.forEach((t, i) => {
    const value = values[i];
    if (value === null || value === undefined) return;
    const now = width > 0 ? Math.floor((t - first) / width) : 0;
    const point: [number, number] = [t, value];
    if (now !== column) {
      flush();
      column = now;
      low = high = point;
      return;
    }
    if (!low || value < low[1]) low = point;
    if (!high || value > high[1]) high = point;
  });
  flush();
  return points;
}

function boundaries(u: uPlot, scene: Scene): void {
  u.ctx.strokeStyle = scene.tones.rule;
  u.ctx.lineWidth = devicePixelRatio;
  u.ctx.setLineDash([]);
  for (const step of scene.steps) {
    const x = Math.round(u.valToPos(step.begin, 'x', true)) + 0.5;
    u.ctx.beginPath();
    u.ctx.moveTo(x, u.bbox.top);
    u.ctx.lineTo(x, u.bbox.top + u.bbox.height);
    u.ctx.stroke();
  }
}

function ghosts(u: uPlot, scene: Scene): void {
  if (!scene.ghost) return;
  const columns = u.bbox.width / devicePixelRatio;
  u.ctx.lineWidth = devicePixelRatio;
  u.ctx.setLineDash([]);
  u.ctx.globalAlpha = 0.5;
  for (const curve of scene.ghost.curves) {
    const i = scene.panel.curves.findIndex((each) => each.name === curve.name);
    if (i < 0) continue;
    u.ctx.strokeStyle = penAt(scene, i).colour;
    line(u, thinned(scene.ghost.time, curve.values, columns));
  }
  u.ctx.globalAlpha = 1;
}

/** A dashed line over its windows, short strokes on the side where the curve must not be, and its name. */
function limits(u: uPlot, scene: Scene): void {
  const { ctx } = u;
  const unit = devicePixelRatio;
  ctx.font = scene.tones.font.replace(/^\d+px/, (size) => `${parseFloat(size) * unit}px`);
  ctx.strokeStyle = ctx.fillStyle = scene.tones.broken;
  ctx.lineWidth = 1.25 * unit;
  for (const limit of scene.panel.limits) {
    const y = u.valToPos(limit.value, 'y', true);
    const away = limit.never_above ? -1 : 1;
    for (const [from, to] of limit.windows) {
      const left = u.valToPos(Math.max(0, from), 'x', true);
      const right = u.valToPos(Math.min(scene.end, to), 'x', true);
      ctx.setLineDash([7 * unit, 4 * unit]);
      ctx.beginPath();
      ctx.moveTo(left, y);
      ctx.lineTo(right, y);
      ctx.stroke();
      ctx.setLineDash([]);
      ctx.beginPath();
      for (let x = left + 4 * unit; x < right; x += 18 * unit) {
        ctx.moveTo(x, y);
        ctx.lineTo(x + 3 * unit, y + 4 * unit * away);
      }
      ctx.stroke();
    }
  }
  const placed: Placed[] = [];
  for (const limit of scene.panel.limits) label(u, scene, limit, placed);
}

interface Placed {
  x: number;
  y: number;
  width: number;
}

/** The name of a limit beside its line; the promise alone, which it has in brackets, where there is little room. */
function label(u: uPlot, scene: Scene, limit: Panel['limits'][number], placed: Placed[]): void {
  const from = limit.windows[0]?.[0];
  if (from === undefined) return;
  const { ctx } = u;
  const unit = devicePixelRatio;
  const room = u.bbox.width - 8 * unit;
  const text = [limit.label, /\(([^)]+)\)$/.exec(limit.label)?.[1] ?? ''].find((each) => ctx.measureText(each).width <= room);
  if (!text) return;
  const width = ctx.measureText(text).width;
  const left = u.valToPos(Math.max(0, from), 'x', true) + 4 * unit;
  const x = Math.max(u.bbox.left + 4 * unit, Math.min(left, u.bbox.left + room - width));
  const height = 0.9 * scene.tones.rem * unit;
  const line = u.valToPos(limit.value, 'y', true);
  const above = line - 5 * unit;
  const below = line + height + 3 * unit;
  const isFree = (y: number) =>
    y - height > u.bbox.top && y < u.bbox.top + u.bbox.height &&
    placed.every((each) => Math.abs(each.y - y) > height || each.x > x + width || each.x + each.width < x);
  const y = (limit.never_above ? [above, below] : [below, above]).find(isFree);
  if (y === undefined) return;
  placed.push({ x, y, width });
  ctx.textAlign = 'left';
  ctx.textBaseline = 'bottom';
  ctx.lineWidth = 4 * unit;
  ctx.strokeStyle = scene.tones.sheet;
  ctx.lineJoin = 'round';
  ctx.strokeText(text, x, y);
  ctx.fillText(text, x, y);
}

function clipped(u: uPlot, draw: () => void): void {
  u.ctx.save();
  u.ctx.beginPath();
  u.ctx.rect(u.bbox.left, u.bbox.top, u.bbox.width, u.bbox.height);
  u.ctx.clip();
  draw();
  u.ctx.restore();
}

export interface Frame {
  width: number;
  height: number;
  /** Of the axis on the left, and what stays free on the right: the same for all panels. */
  left: number;
  right: number;
  /** Whether the time is written below. */
  timed: boolean;
}

const shortTicks = [-4, -3, -2, -1, 0, 1, 2].flatMap((power) => [1, 2, 2.5, 5].map((lead) => lead * 10 ** power));
const longTicks = [60, 120, 300, 600, 1200, 1800, ...[1, 2, 4, 6, 12, 24, 48, 120, 240].map((hours) => 3600 * hours)];
const isLong = (end: number) => end >= 2 * longTime;
const ticksOf = (end: number) => (isLong(end) ? longTicks : shortTicks);
const tick = (t: number, end: number) => (isLong(end) ? span(t) : `${Number(t.toPrecision(6))} s`);

export function plot(place: HTMLElement, now: () => Scene, frame: Frame): uPlot {
  const { tones, panel } = now();
  const axis = {
    stroke: tones.quiet,
    font: tones.font,
    grid: { stroke: tones.rule, width: 1 },
    ticks: { stroke: tones.rule, width: 1, size: 4 },
  };
  const options: uPlot.Options = {
    width: frame.width,
    height: frame.height,
    padding: [6, frame.right, frame.timed ? 0 : 6, 0],
    legend: { show: false },
    cursor: {
      y: false,
      points: { show: false },
      drag: { x: false, y: false, setScale: false },
      sync: { key: 'poise cycle', setSeries: false },
    },
    scales: {
      x: { time: false, range: () => [0, Math.max(now().end, 1e-6)] },
      y: { range: () => extent(now()) },
    },
    axes: [
      {
        ...axis,
        show: frame.timed,
        size: 1.9 * tones.rem,
        gap: 4,
        space: 4.5 * tones.rem,
        incrs: (u) => ticksOf(u.scales.x?.max ?? 0),
        values: (u, ticks) => ticks.map((t) => tick(t, u.scales.x?.max ?? 0)),
        grid: { show: false },
      },
      {
        ...axis,
        size: frame.left,
        gap: 6,
        space: 2.1 * tones.rem,
        values: (_, ticks) => ticks.map((value) => String(Number(value.toPrecision(6)))),
      },
    ],
    series: [
      {},
      ...panel.curves.map((curve, i) => ({
        label: curve.label,
        stroke: () => penAt(now(), i).colour,
        width: 1.75,
        dash: penAt(now(), i).dash,
        show: now().groups.some((group) => group.curves[0] === i),
        points: { show: false },
      })),
    ],
    hooks: {
      drawAxes: [
        (u) =>
          clipped(u, () => {
            boundaries(u, now());
            ghosts(u, now());
          }),
      ],
      draw: [(u) => clipped(u, () => limits(u, now()))],
    },
  };
  return new uPlot(options, dataOf(panel), place);
}
