// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// After every change the job is proven again. One run at a time for each tab: a later one stops an earlier one.
import * as api from './api';
import { bench, tab } from './state.svelte';

const pause = 150;
const slow = 1000;
let waiting = 0;
let under: AbortController | null = null;
let byHand = false;
/** The job that was run last. */
let ran = '';

/** Proves the opened job as soon as no further change comes for a moment. */
export function proveSoon(): void {
  window.clearTimeout(waiting);
  bench.proving = true;
  waiting = window.setTimeout(() => void prove(), pause);
}

/** Proves the opened job, with further signals where some are asked for. */
export async function prove(): Promise<void> {
  const name = bench.job;
  if (!name) return;
  window.clearTimeout(waiting);
  under?.abort();
  const mine = (under = new AbortController());
  ran = name;
  const latest = () => mine === under && bench.job === name;
  bench.proving = true;
  bench.stopped = byHand = false;
  bench.progress = null;
  const clock = window.setInterval(() => void watch(name, latest), slow / 2);
  const begun = performance.now();
  try {
    const answer = await api.prove(name, bench.units, { tab, signals: bench.signals }, mine.signal);
    if (!latest()) return;
    bench.answer = answer;
    bench.stopped = byHand && answer.outcome === 'not proven';
    if (bench.time > answer.duration) bench.time = answer.duration;
  } catch (error) {
    if (latest()) tell(error);
  } finally {
    window.clearInterval(clock);
    if (latest()) {
      bench.proving = false;
      bench.progress = null;
    }
  }

  async function watch(job: string, current: () => boolean): Promise<void> {
    if (performance.now() - begun < slow) return;
    const progress = await api.progress(job, tab).catch(() => null);
    if (current() && bench.proving && progress?.running) bench.progress = progress;
  }
}

function tell(error: unknown): void {
  if (error instanceof api.Refusal && error.status === 499) bench.stopped = true;
  else if (error instanceof api.Refusal) bench.trouble = error.sentence;
  else throw error;
}

/** Nobody waits for the run under way any more: another job is opened. It is stopped. */
export function forget(): void {
  window.clearTimeout(waiting);
  if (under && bench.proving) void api.stop(ran, tab).catch(() => undefined);
  under?.abort();
  under = null;
  bench.proving = false;
  bench.progress = null;
  bench.stopped = false;
}

export async function stop(): Promise<void> {
  byHand = true;
  if (bench.job) await api.stop(bench.job, tab).catch(tell);
}
