// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// One entry of a form becomes one edit of the file.
import type { Edit, Json, Page, Place } from '../api';
import { bench, type Refused } from '../state.svelte';
import { valueAt } from '../tree';
import { edit, type Done } from '../work';

/** What must still be so for an entry to fit a job that was changed elsewhere: the old value, in the same entry of a list. */
function seen(page: Page, at: Place): string {
  const entry = at.length > 2 && typeof at[1] === 'number' ? valueAt(page.tree, [at[0] ?? '', at[1], 'name']) : null;
  return JSON.stringify([entry ?? null, valueAt(page.tree, at) ?? null]);
}

/** Writes a value, or takes the key out where it is null. */
export async function save(at: Place, value: Json, says: string): Promise<Done> {
  const page = bench.page;
  if (!page) return 'left';
  const old = valueAt(page.tree, at);
  if (JSON.stringify(old ?? null) === JSON.stringify(value)) return 'saved';
  const before = seen(page, at);
  const change: Edit = value === null ? { do: 'remove', at } : { do: 'set', at, value };
  return edit(says, [change], (fresh) => seen(fresh, at) === before);
}

/** What was typed into a field: nothing takes the key out, a bare number of a bare quantity is one. */
export function typed(text: string, quantity = ''): Json {
  const words = text.trim();
  if (words === '') return null;
  const number = /^[-+]?\d+(\.\d+)?([eE][-+]?\d+)?$/.test(words);
  return quantity === 'plain number' && number ? Number(words) : words;
}

type Typed = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** Brings back what holds where an entry was not written, unless something else has been entered meanwhile. */
export async function orBack(field: Typed, written: Promise<Done>, holds: () => string): Promise<void> {
  const typed = field.value;
  if ((await written) !== 'saved' && field.value === typed) field.value = holds();
}

/** The id of a place's field on the page. */
export function idOf(at: Place): string {
  return `at-${at.join('/')}`;
}

/** What was not written in the field of this id, or in the group of fields that it stands for. */
export function refusedIn(id: string): Refused | null {
  const { refused } = bench;
  if (!refused?.at) return null;
  const at = idOf(refused.at);
  return at === id || at.startsWith(`${id}/`) ? refused : null;
}
