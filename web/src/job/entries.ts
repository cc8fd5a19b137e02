// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Adding, moving and taking away the entries of a list of the job: steps, controls, requirements.
import { tick } from 'svelte';
import type { Table } from '../api';
import { bench } from '../state.svelte';
import { tables } from '../tree';
import { edit } from '../work';

export type List = 'steps' | 'controls' | 'require';

/** Goes to the first of these that can take the focus. */
async function focus(...ids: string[]): Promise<void> {
  await tick();
  const places = ids.map((id) => document.getElementById(id));
  const place = places.find((each) => each && !(each instanceof HTMLButtonElement && each.disabled));
  place?.focus();
  if (place instanceof HTMLInputElement) place.select();
}

/** Adds an entry behind the last one and goes to its first field. */
export async function add(list: List, value: Table, says: string, field: string): Promise<void> {
  const place = bench.page ? tables(bench.page, list).length : 0;
  const done = await edit(says, [{ do: 'add', at: [list], value }]);
  if (done === 'saved') await focus(`at-${list}/${place}/${field}`);
}

export async function move(list: List, from: number, to: number, says: string): Promise<void> {
  const done = await edit(says, [{ do: 'move', at: [list, from], place: to }]);
  if (done === 'saved') await focus(`${list}-${to}-${to < from ? 'up' : 'down'}`, `${list}-${to}-${to < from ? 'down' : 'up'}`);
}

export async function remove(list: List, i: number, says: string): Promise<void> {
  const done = await edit(says, [{ do: 'remove', at: [list, i] }]);
  if (done === 'saved') await focus(`${list}-add`);
}

/** A signal to begin a condition or a promise with: the pressure at an actuator where there is one. */
export function firstSignal(): string {
  const pressures = (bench.page?.signals ?? []).filter((each) => each.quantity === 'pressure');
  const kinds = bench.words?.kinds ?? [];
  const actuators = new Set(
    (bench.page?.parts ?? [])
      .filter((part) => kinds.find((kind) => kind.kind === part.kind)?.role === 'actuator')
      .map((part) => part.tag),
  );
  const found = pressures.find((each) => actuators.has(each.part)) ?? pressures[0] ?? bench.page?.signals[0];
  return found?.name ?? 'C1.A.pressure';
}

/** `step 5`, or the next number that no entry is called. */
export function freeName(list: List, word: string): string {
  const names = bench.page ? tables(bench.page, list).map((each) => each.name) : [];
  let number = names.length + 1;
  while (names.includes(`${word} ${number}`)) ++number;
  return `${word} ${number}`;
}
