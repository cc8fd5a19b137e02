// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What a table of faults says of them, and which of them it shows.
import { severities, type Fault, type Severity } from './wire';

/** Worst first; among equals those that nothing shows, then as they were run. */
export function worstFirst(faults: Fault[]): Fault[] {
  const rank = (fault: Fault) => 2 * severities.indexOf(fault.severity) + (fault.shown.by === 'nothing' ? 0 : 1);
  return [...faults].sort((a, b) => rank(a) - rank(b) || a.number - b.number);
}

export const breaksSomething = ({ severity }: Fault) => severity !== 'nothing breaks' && severity !== 'not proven';

export function countOf(faults: Fault[], severity: Severity): number {
  return faults.filter((each) => each.severity === severity).length;
}

/** What breaks at any size, each once, as it is at the graver one. */
export function breaksOf({ sizes }: Fault): { name: string; text: string }[] {
  const byName = new Map(sizes.flatMap(({ breaks }) => breaks).map((each) => [each.name, each]));
  return [...byName.values()];
}

/** `relief stuck shut` of V3; a pair has no one part and goes by its whole name. */
export const titleOf = ({ part, fault, name }: Fault) => (part ? fault : name);

/** `a gauge, before it breaks`. */
export function shownIn({ shown: { by, when } }: Fault): string {
  if (by === 'motion') return 'by how it moves';
  if (by === 'nothing') return 'nothing shows it';
  return when && when !== 'yes' ? `a ${by}, ${when}` : `a ${by}`;
}

/** The severities as they are counted: `3 make it work badly`. */
export const several: Record<Severity, string> = {
  'can hurt someone': 'can hurt someone',
  'can damage': 'can damage',
  'works badly': 'make it work badly',
  'not proven': 'are not proven',
  'nothing breaks': 'break nothing',
};
