// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Which curves are looked at: the server's choice until somebody makes his own, which the tab then keeps for the job.
import type { Answer } from '../api';
import { keep, kept } from '../kept';
import { proveSoon } from '../proving';
import { bench } from '../state.svelte';

/** Takes over what this tab kept for a job that is being opened, before its first run. */
export function recallWanted(job: string): void {
  bench.signals = kept('curves', job);
}

/** Sets the curves that are looked at; an empty list is the server's choice. */
export function want(job: string, names: string[]): void {
  keep('curves', job, names);
  bench.signals = names;
  proveSoon();
}

export const curvesOf = (answer: Answer | null) =>
  answer?.panels.flatMap((panel) => panel.curves.map((curve) => curve.name)) ?? [];

/** What the server sends beyond the chosen curves is not shown. */
export const isHidden = (name: string) => bench.signals.length > 0 && !bench.signals.includes(name);
