// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What is done to the opened job. Requests that write go one after the other, each with the revision the last one left.
import * as api from './api';
import { keepAddress, readAddress } from './address';
import { forget, prove, proveSoon } from './proving';
import { bench } from './state.svelte';

/** What became of an edit. `again`: the job had changed meanwhile; the fresh page is shown and nothing was written. */
export type Done = 'saved' | 'again' | 'refused';

let queue: Promise<unknown> = Promise.resolve();

function inTurn<T>(what: () => Promise<T>): Promise<T> {
  const next = queue.then(what, what);
  queue = next.catch(() => undefined);
  return next;
}

function take(page: api.Page): void {
  if (bench.job !== page.name) return;
  const first = bench.page === null;
  bench.page = page;
  document.title = `${page.title || page.name} – Poise`;
  if (first) void prove();
  else proveSoon();
}

type Write = (name: string, revision: number) => Promise<api.Page>;

function write(how: Write): Promise<Done> {
  return inTurn(async () => {
    const { job, page } = bench;
    if (!job || !page) return 'refused';
    bench.saving = true;
    try {
      take(await how(job, page.revision));
      bench.takenOver = false;
      bench.trouble = null;
      return 'saved';
    } catch (error) {
      if (!(error instanceof api.Refusal)) throw error;
      if (error.page) {
        take(error.page);
        bench.takenOver = true;
        return 'again';
      }
      bench.trouble = error.sentence;
      return 'refused';
    } finally {
      bench.saving = false;
    }
  });
}

const changedMeanwhile = 'The job was changed elsewhere meanwhile. It is shown as it is now; your entry was not written.';

/** Writes edits as one step of the history. Tried a second time on a changed job only if `stillFits` says so. */
export async function edit(
  says: string,
  edits: api.Edit[],
  stillFits: (page: api.Page) => boolean = () => false,
): Promise<Done> {
  const how: Write = (name, revision) => api.edit(name, bench.units, revision, says, edits);
  let done = await write(how);
  if (done === 'again' && bench.page && stillFits(bench.page)) done = await write(how);
  if (done === 'again') bench.trouble = changedMeanwhile;
  return done;
}

async function whole(how: Write): Promise<Done> {
  const done = await write(how);
  if (done === 'again') bench.trouble = changedMeanwhile;
  return done;
}

export const writeText = (text: string) =>
  whole((name, revision) => api.write(name, bench.units, revision, text));
export const undo = () => whole((name, revision) => api.undo(name, bench.units, revision));
export const redo = () => whole((name, revision) => api.redo(name, bench.units, revision));

/** Changes the circuit and selects the part that the server names. */
export async function change(what: api.Change): Promise<Done> {
  let select: string | undefined;
  const done = await whole(async (name, revision) => {
    const page = await api.change(name, bench.units, revision, what);
    select = page.select;
    return page;
  });
  if (select !== undefined) {
    bench.part = select || null;
    keepAddress();
  }
  return done;
}

/** Reads the job again, for instance in other units. */
async function read(name: string, units: api.Units | undefined): Promise<void> {
  const page = await api.page(name, units);
  if (bench.job !== name) return;
  bench.units = units ?? page.units;
  take(page);
}

export async function showUnits(units: api.Units): Promise<void> {
  const name = bench.job;
  if (!name || units === bench.units) return;
  await inTurn(() => read(name, units)).catch(tell);
  keepAddress();
}

/** Goes where the address points: at the start, and whenever it changes. */
export async function follow(): Promise<void> {
  const { job, units } = readAddress();
  if (job === bench.job && job !== null) {
    if (units && units !== bench.units) await showUnits(units);
    return;
  }
  bench.job = job;
  bench.page = null;
  bench.answer = null;
  bench.takenOver = false;
  forget();
  bench.trouble = null;
  if (!job) {
    document.title = 'Poise';
    bench.folder = await api.folder().catch(tell);
    return;
  }
  await inTurn(() => read(job, units ?? undefined)).catch((error) => {
    tell(error);
    bench.job = null;
  });
}

function tell(error: unknown): null {
  if (!(error instanceof api.Refusal)) throw error;
  bench.trouble = error.sentence;
  return null;
}

/** The first look: words, folder, and the job that the address or the command line names. */
export async function begin(): Promise<void> {
  const named = readAddress().job !== null;
  const words = api.words().catch(tell);
  const folder = api.folder().catch(tell);
  if (named) void follow();
  bench.words = await words;
  bench.folder = await folder;
  if (named) return;
  const opened = bench.folder?.opened;
  if (!location.hash && opened) history.replaceState(null, '', `#job=${encodeURIComponent(opened)}`);
  await follow();
}

/** Looks every second whether the file changed on disk, and takes it over. A lasting trouble is told once. */
export function watchFile(): void {
  let asking = false;
  let told = false;
  window.setInterval(async () => {
    const { job, page, saving } = bench;
    if (!job || !page || saving || asking || document.hidden) return;
    asking = true;
    try {
      const { revision } = await api.revision(job);
      if (told) bench.trouble = null;
      told = false;
      if (revision !== bench.page?.revision && bench.job === job && !bench.saving) {
        await inTurn(() => read(job, bench.units));
        bench.takenOver = true;
      }
    } catch (error) {
      if (!told) tell(error);
      told = true;
    } finally {
      asking = false;
    }
  }, 1000);
}
