// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Reading the job's tree as it is typed.
import type { Complaint, Json, Page, Place, Table } from './api';

export function isTable(value: Json | undefined): value is Table {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function valueAt(tree: Json, at: Place): Json | undefined {
  let value: Json | undefined = tree;
  for (const key of at) {
    if (Array.isArray(value)) value = value[Number(key)];
    else if (isTable(value)) value = value[String(key)];
    else return undefined;
  }
  return value;
}

/** A text or number as it was typed; what is not there is empty. */
export function textOf(value: Json | undefined): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}

/** A list of tables such as the steps. */
export function tables(page: Page, key: string): Table[] {
  const value = page.tree[key];
  return Array.isArray(value) ? value.filter(isTable) : [];
}

/** One word or a list of them, as a list. */
export function listOf(value: Json | undefined): string[] {
  if (Array.isArray(value)) return value.map(textOf);
  return value === undefined ? [] : [textOf(value)];
}

export function begins(whole: Place, start: Place): boolean {
  return start.length <= whole.length && start.every((key, i) => whole[i] === key);
}

/** Complaints about a place itself, not about what lies in it. */
export function complaintsAt(page: Page, at: Place): Complaint[] {
  return page.complaints.filter((each) => each.at?.length === at.length && begins(each.at, at));
}

/** Complaints about a place or what lies in it. */
export function complaintsIn(page: Page, at: Place): Complaint[] {
  return page.complaints.filter((each) => each.at && begins(each.at, at));
}
