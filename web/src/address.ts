// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The page's place in its own address: #job=lift.toml&room=cycle&part=V3&at=2.5&units=us. Reload and back go there again.
import { bench, rooms, type Room } from './state.svelte';

export interface There {
  job?: string | null;
  room?: Room;
  part?: string | null;
  time?: number;
}

/** The link to a place; what is left out stays as it is now. */
export function link(there: There): string {
  const job = there.job === undefined ? bench.job : there.job;
  if (!job) return '#jobs';
  const part = there.part === undefined ? bench.part : there.part;
  const time = there.time ?? bench.time;
  const words = new URLSearchParams({ job, room: there.room ?? bench.room });
  if (part) words.set('part', part);
  if (time > 0) words.set('at', String(Math.round(time * 1e6) / 1e6));
  if (bench.page && bench.units !== bench.page.units) words.set('units', bench.units);
  return `#${words}`;
}

/** Goes there, as a click on the link would. */
export function go(there: There): void {
  location.hash = link(there);
}

/** Writes the place into the address without a new entry for the back button. */
export function keepAddress(): void {
  history.replaceState(null, '', link({}));
}

/** Takes over room, part, moment and units from the address, and returns the job that it names. */
export function readAddress(): { job: string | null; units: 'metric' | 'us' | null } {
  const words = new URLSearchParams(location.hash.slice(1));
  const room = rooms.find((each) => each.room === words.get('room'));
  const at = Number(words.get('at'));
  bench.room = room?.room ?? 'job';
  bench.select(words.get('part'));
  bench.time = Number.isFinite(at) && at > 0 ? at : 0;
  const units = words.get('units');
  return { job: words.get('job'), units: units === 'us' || units === 'metric' ? units : null };
}
