// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Which parts of the Job room stand open, and the way to a place in it.
import { tick } from 'svelte';
import { SvelteSet } from 'svelte/reactivity';
import type { Place } from '../api';
import { go } from '../address';
import { bench } from '../state.svelte';
import { begins } from '../tree';
import { idOf } from './save';

export const openParts = new SvelteSet<string>();

/** Goes to the field of a place in the Job room, or to the nearest thing above it that is shown. */
export async function reach(at: Place): Promise<void> {
  const part = bench.page?.parts.find((each) => begins(at, each.at));
  if (part) openParts.add(part.tag);
  if (bench.room !== 'job') go({ room: 'job', part: part?.tag ?? bench.part });
  // The address is followed in a task of its own; the room is drawn after that.
  for (let i = 0; i < 20 && bench.room !== 'job'; ++i) await new Promise((next) => setTimeout(next, 10));
  await tick();
  for (let length = at.length; length > 0; --length) {
    const place = document.getElementById(idOf(at.slice(0, length)));
    if (!place) continue;
    const folded = place.closest('details:not([open])');
    if (folded instanceof HTMLDetailsElement) folded.open = true;
    place.scrollIntoView({ block: 'center' });
    place.focus({ preventScroll: true });
    return;
  }
}
