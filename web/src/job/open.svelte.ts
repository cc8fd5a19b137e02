// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What stands open in the Job room, and the way to a place in it.
import { tick } from 'svelte';
import { SvelteSet } from 'svelte/reactivity';
import type { Complaint, Place } from '../api';
import { go } from '../address';
import { bench } from '../state.svelte';
import { begins } from '../tree';
import { idOf } from './save';

export const openParts = new SvelteSet<string>();

/** The file's text as it is being typed: `base` is the text that typing began with. */
export const text = $state({ open: false, job: '', draft: '', base: '' });

/** Where the caret is wanted in the text, counted from 1. */
export const wanted = $state<{ place: { line: number; column: number } | null }>({ place: null });

async function arrive(part: string | null): Promise<void> {
  if (bench.room !== 'job') go({ room: 'job', part });
  // The address is followed in a task of its own; the room is drawn after that.
  for (let i = 0; i < 20 && bench.room !== 'job'; ++i) await new Promise((next) => setTimeout(next, 10));
  await tick();
}

/** Goes to the field of a place in the Job room, or to the nearest thing above it that is shown. False: there is none. */
export async function reach(at: Place): Promise<boolean> {
  const part = bench.page?.parts.find((each) => begins(at, each.at));
  if (part) openParts.add(part.tag);
  await arrive(part?.tag ?? bench.part);
  for (let length = at.length; length > 0; --length) {
    const place = document.getElementById(idOf(at.slice(0, length)));
    if (!place) continue;
    const folded = place.closest('details:not([open])');
    if (folded instanceof HTMLDetailsElement && place.tagName !== 'SUMMARY') folded.open = true;
    place.scrollIntoView({ block: 'center' });
    place.focus({ preventScroll: true });
    return true;
  }
  return empty(String(at[0]));
}

/** What is not there yet is begun here: a first step, requirement or control, the first part in the circuit. */
function empty(list: string): boolean {
  if (list === 'parts') go({ room: 'circuit', part: null });
  const begins = document.getElementById(`${list}-add`);
  begins?.scrollIntoView({ block: 'center' });
  begins?.focus({ preventScroll: true });
  return list === 'parts' || begins !== null;
}

/** Goes to what is complained of: its field, or where it has none, its line of the text. */
export async function mend(complaint: Complaint): Promise<void> {
  if (complaint.at && (await reach(complaint.at))) return;
  await arrive(bench.part);
  text.open = true;
  wanted.place = { line: complaint.line, column: complaint.column };
}
