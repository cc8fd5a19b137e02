// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Lists of names that this tab keeps for a job, such as the curves that are looked at.

type Kept = 'curves' | 'pins';

const keyOf = (what: Kept, job: string) => `poise ${what} ${job}`;

export function kept(what: Kept, job: string): string[] {
  try {
    const list: unknown = JSON.parse(sessionStorage.getItem(keyOf(what, job)) ?? '[]');
    return Array.isArray(list) ? list.filter((each): each is string => typeof each === 'string') : [];
  } catch {
    return [];
  }
}

export function keep(what: Kept, job: string, names: string[]): void {
  try {
    if (names.length > 0) sessionStorage.setItem(keyOf(what, job), JSON.stringify(names));
    else sessionStorage.removeItem(keyOf(what, job));
  } catch {
    // In a browser that keeps nothing they hold for now.
  }
}

/** What this browser keeps for a job beyond the tab; null: nothing, or it keeps nothing. */
export function recall<T>(what: 'readings', job: string): T | null {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(`poise ${what} ${job}`) ?? 'null');
    return found !== null && typeof found === 'object' ? (found as T) : null;
  } catch {
    return null;
  }
}

export function remember(what: 'readings', job: string, value: unknown): void {
  try {
    localStorage.setItem(`poise ${what} ${job}`, JSON.stringify(value));
  } catch {
    // In a browser that keeps nothing it holds for now.
  }
}
