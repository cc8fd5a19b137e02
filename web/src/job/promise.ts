// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The kinds of promise that a requirement can make, and the keys that each of them is written with.
import type { Edit, Json, Place, Table } from '../api';
import { firstSignal } from './entries';
import { listOf, textOf } from '../tree';

export const promises = [
  { key: 'never_above', words: 'never above', others: ['limit'] },
  { key: 'never_below', words: 'never below', others: ['limit'] },
  { key: 'reached', words: 'reached in time', others: ['within'] },
  { key: 'first', words: 'one before another', others: ['then', 'gap'] },
  { key: 'band', words: 'between two values', others: ['low', 'high'] },
  { key: 'drift', words: 'stays where it is', others: ['limit', 'settle'] },
  { key: 'level', words: 'several stay level', others: ['limit'] },
] as const;

export type Promised = (typeof promises)[number]['key'];

/** What a requirement asks; none where its table holds none of the words. */
export function promiseOf(require: Table): Promised | null {
  return promises.find((each) => require[each.key] !== undefined)?.key ?? (require.then !== undefined ? 'first' : null);
}

/** The signal that the promise is about, as far as it names one. */
export function signalOf(require: Table): string {
  for (const key of ['never_above', 'never_below', 'band', 'drift', 'level']) {
    const name = listOf(require[key])[0];
    if (name) return name;
  }
  for (const key of ['reached', 'first']) {
    const name = /^\s*([^\s<>]+)/.exec(listOf(require[key])[0] ?? '')?.[1];
    if (name) return name;
  }
  return firstSignal();
}

/** The keys of a new promise about a signal; `example` is a value of the signal's quantity. */
export function begun(promised: Promised, signal: string, other: string, example: string): Table {
  switch (promised) {
    case 'reached':
      return { reached: `${signal} > ${example}`, within: '5 s' };
    case 'first':
      return { first: `${signal} > ${example}`, then: `${other} > ${example}` };
    case 'band':
      return { band: signal, low: example.replace(/^[\d.]+/, '0'), high: example };
    case 'level':
      return { level: [signal, other], limit: example };
    default:
      return { [promised]: signal, limit: example };
  }
}

/** The edits that turn a requirement into another promise; a limit that fits both is kept. */
export function turned(at: Place, require: Table, fresh: Table): Edit[] {
  const known = new Set<string>(promises.flatMap((each) => [each.key, ...each.others]));
  const edits: Edit[] = [];
  for (const key of Object.keys(require)) {
    if (known.has(key) && !(key in fresh)) edits.push({ do: 'remove', at: [...at, key] });
  }
  for (const [key, value] of Object.entries(fresh)) {
    if (key === 'limit' && textOf(require.limit)) continue;
    edits.push({ do: 'set', at: [...at, key], value: value as Json });
  }
  return edits;
}
