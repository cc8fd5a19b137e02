// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// One function for each address of the server. Addresses are relative: the token stands in the page's own address.
import type {
  Answer,
  Change,
  Edit,
  Folder,
  Legend,
  Page,
  PartNow,
  Progress,
  Sides,
  Units,
  Words,
} from './wire';
import type { CanRead, History, Weighed } from './readings/wire';
import type { StudyKind, Told } from './study/wire';

export * from './wire';
export * from './study/wire';

/** An answer that is not 2xx: its sentence, and the job's fresh page where the revision was an old one. */
export class Refusal extends Error {
  constructor(
    readonly status: number,
    readonly sentence: string,
    readonly page: Page | null,
  ) {
    super(sentence);
  }
}

type Query = { [name: string]: string | number | undefined };

function address(path: string, query: Query = {}): string {
  const asked = Object.entries(query)
    .filter((entry) => entry[1] !== undefined)
    .map(([name, value]) => `${name}=${encodeURIComponent(String(value))}`)
    .join('&');
  return asked ? `api/${path}?${asked}` : `api/${path}`;
}

async function refusal(response: Response): Promise<Refusal> {
  const said = (await response.json().catch(() => null)) as { sentence?: string; page?: Page } | null;
  const sentence = said?.sentence ?? `The server answered with ${response.status}.`;
  return new Refusal(response.status, sentence, said?.page ?? null);
}

async function ask(path: string, init: RequestInit): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, { cache: 'no-store', ...init });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Refusal(0, 'Poise does not answer. Is `poise open` still running in its terminal?', null);
  }
  if (!response.ok) throw await refusal(response);
  return response;
}

async function get<T>(path: string, query?: Query): Promise<T> {
  return (await ask(address(path, query), {})).json() as Promise<T>;
}

async function post<T>(path: string, body: unknown, query?: Query, signal?: AbortSignal): Promise<T> {
  const headers = { 'Content-Type': 'application/json' };
  const init: RequestInit = { method: 'POST', headers, body: JSON.stringify(body), signal: signal ?? null };
  return (await ask(address(path, query), init)).json() as Promise<T>;
}

const job = (name: string, rest = '') => `job/${encodeURIComponent(name)}${rest}`;

export const words = () => get<Words>('words');
export const folder = () => get<Folder>('jobs');
export const create = (start: string, name: string, title: string, units: Units) =>
  post<{ name: string }>('jobs', { start, name, title, units });

export const page = (name: string, units?: Units) => get<Page>(job(name), { units });
export const revision = (name: string) => get<{ revision: number }>(job(name, '/revision'));
export const edit = (name: string, units: Units, revision: number, says: string, edits: Edit[]) =>
  post<Page>(job(name, '/edit'), { revision, says, edits }, { units });
export const write = (name: string, units: Units, revision: number, text: string) =>
  post<Page>(job(name, '/text'), { revision, text }, { units });
export const undo = (name: string, units: Units, revision: number) =>
  post<Page>(job(name, '/undo'), { revision }, { units });
export const redo = (name: string, units: Units, revision: number) =>
  post<Page>(job(name, '/redo'), { revision }, { units });
export const change = (name: string, units: Units, revision: number, change: Change) =>
  post<Page & { select?: string }>(job(name, '/circuit'), { revision, change }, { units });
export const sides = (name: string, line: string, x: number, y: number) =>
  get<Sides>(job(name, '/sides'), { line, x, y });

interface Asked {
  tab: string;
  trial?: Edit[];
  signals?: string[];
}
/** `gone`: nobody waits for this answer any more. The run itself ends as the tab asks for a later one. */
export const prove = (name: string, units: Units, asked: Asked, gone?: AbortSignal) =>
  post<Answer>(job(name, '/prove'), asked, { units }, gone);
export const progress = (name: string, tab: string) => get<Progress>(job(name, '/progress'), { tab });
export const stop = (name: string, tab: string) => post<unknown>(job(name, '/stop'), { tab });

/** The drawing as SVG text: at rest without a run. */
export async function drawing(name: string, units: Units, run?: number, frame?: number): Promise<string> {
  return (await ask(address(job(name, '/drawing'), { run, frame, units }), {})).text();
}
export const legend = (name: string, units: Units, run?: number) =>
  get<Legend>(job(name, '/legend'), { run, units });
export const part = (name: string, units: Units, tag: string, run?: number, frame?: number) =>
  get<PartNow>(job(name, '/part'), { tag, run, frame, units });

/** `known`: number of the answer that is at hand already. */
export const study = <A>(name: string, units: Units, kind: StudyKind, known: number) =>
  get<Told<A>>(job(name, '/study'), { kind, units, known });
export const beginStudy = (name: string, kind: StudyKind, wanted: number) =>
  post<unknown>(job(name, '/study'), { kind, wanted });
export const stopStudy = (name: string, kind: StudyKind) => post<unknown>(job(name, '/study/stop'), { kind });

export const canRead = (name: string, units: Units) => get<CanRead>(job(name, '/readings'), { units });
export const weigh = (name: string, units: Units, said: History & { readings: { key: string; text: string }[] }, gone: AbortSignal) =>
  post<Weighed>(job(name, '/readings'), said, { units }, gone);
