// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What is done to the opened job. Requests that write go one after the other, each with the revision the last one left.
import * as api from './api';
import { keepAddress, readAddress } from './address';
import { recallWanted } from './cycle/wanted.svelte';
import { forget, prove, proveSoon } from './proving';
import { bench } from './state.svelte';
import { textOf } from './tree';

/**
 * What became of a change. `again`: the job had changed meanwhile; the fresh page is shown and nothing was written.
 * `left`: another job is open by now, and nothing is to be done in the page any more.
 */
export type Done = 'saved' | 'again' | 'refused' | 'left';

/** Where a change was typed, and what was typed there. */
interface Entered {
  at: api.Place | null;
  typed: string;
}
const nowhere: Entered = { at: null, typed: '' };

let queue: Promise<unknown> = Promise.resolve();
/** By job: the newest revision that has been heard of, also of jobs that are no longer open. */
const newest = new Map<string, number>();

function inTurn<T>(what: () => Promise<T>): Promise<T> {
  const next = queue.then(what, what);
  queue = next.catch(() => undefined);
  return next;
}

function take(page: api.Page): void {
  newest.set(page.name, page.revision);
  if (bench.job !== page.name) return;
  const first = bench.page === null;
  bench.page = page;
  document.title = `${page.title || page.name} – Poise`;
  if (first) void prove();
  else proveSoon();
}

function refuse(sentence: string, { at, typed }: Entered): void {
  bench.refused = { at, typed, sentence };
  bench.trouble = sentence;
}

type Write = (name: string, revision: number) => Promise<api.Page>;

/** The job that is meant is the one that is open now, not the one that is open once the change has its turn. */
function write(how: Write, entered: Entered): Promise<Done> {
  const { job, page } = bench;
  if (!job || !page) return Promise.resolve('left');
  return inTurn(async () => {
    bench.saving = true;
    try {
      take(await how(job, newest.get(job) ?? page.revision));
      if (bench.job !== job) return 'left';
      bench.takenOver = false;
      bench.trouble = null;
      bench.refused = null;
      return 'saved';
    } catch (error) {
      if (!(error instanceof api.Refusal)) throw error;
      if (error.page) take(error.page);
      if (bench.job !== job) {
        bench.trouble = `${job}: ${error.sentence}`;
        return 'left';
      }
      if (error.page) {
        bench.takenOver = true;
        return 'again';
      }
      refuse(error.sentence, entered);
      return 'refused';
    } finally {
      bench.saving = false;
    }
  });
}

const changedMeanwhile = 'The job was changed elsewhere meanwhile. It is shown as it is now; your entry was not written.';
const never = () => false;

async function whole(how: Write, entered = nowhere, stillFits: (page: api.Page) => boolean = never): Promise<Done> {
  let done = await write(how, entered);
  if (done === 'again' && bench.page && stillFits(bench.page)) done = await write(how, entered);
  if (done === 'again') refuse(changedMeanwhile, entered);
  return done;
}

/** Writes edits as one step of the history. Tried a second time on a changed job only if `stillFits` says so. */
export function edit(says: string, edits: api.Edit[], stillFits?: (page: api.Page) => boolean): Promise<Done> {
  const [first] = edits;
  const entered = { at: first?.at ?? null, typed: first?.do === 'set' ? textOf(first.value) : '' };
  return whole((name, revision) => api.edit(name, bench.units, revision, says, edits), entered, stillFits);
}

export const writeText = (text: string) =>
  whole((name, revision) => api.write(name, bench.units, revision, text));
export const undo = () => whole((name, revision) => api.undo(name, bench.units, revision));
export const redo = () => whole((name, revision) => api.redo(name, bench.units, revision));

/** Changes the circuit and selects the part that the server names, unless another one has been selected meanwhile. */
export async function change(what: api.Change, entered?: Entered): Promise<Done> {
  let select: string | undefined;
  const { picks } = bench;
  const done = await whole(async (name, revision) => {
    const page = await api.change(name, bench.units, revision, what);
    select = page.select;
    return page;
  }, entered);
  if (done === 'saved' && select !== undefined && bench.picks === picks) {
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
  await inTurn(() => read(name, units)).catch((error) => tell(error, name));
  if (bench.job === name) keepAddress();
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
  bench.refused = null;
  bench.trouble = null;
  forget();
  if (!job) {
    document.title = 'Poise';
    bench.folder = await api.folder().catch((error) => tell(error));
    return;
  }
  recallWanted(job);
  await inTurn(() => read(job, units ?? undefined)).catch((error) => {
    tell(error, job);
    if (bench.job === job) bench.job = null;
  });
}

/** Says what went wrong; of a job only while it is open. */
function tell(error: unknown, job: string | null = bench.job): null {
  if (!(error instanceof api.Refusal)) throw error;
  if (bench.job === job) bench.trouble = error.sentence;
  return null;
}

/** The first look: words, folder, and the job that the address or the command line names. */
export async function begin(): Promise<void> {
  const named = readAddress().job !== null;
  const words = api.words().catch((error) => tell(error));
  const folder = api.folder().catch((error) => tell(error));
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
        if (bench.job === job) bench.takenOver = true;
      }
    } catch (error) {
      if (!told) tell(error, job);
      told = true;
    } finally {
      asking = false;
    }
  }, 1000);
}
