// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The lines of a circuit as people see them: ports that are joined without a part between them.
import type { Kind, Page, Part, PartPort, Words } from '../api';

/** An entry of [[lines]] that can be laid as hose or tube: it runs from one port to one other. */
export interface Entry {
  line: number;
  from: string;
  to: string;
}

export interface Line {
  /** Its ports in the order of the parts; the first one names it. */
  ports: string[];
  /** Rods that are fixed to each other; no oil. */
  motion: boolean;
  entries: Entry[];
}

export const kindOf = (words: Words, kind: string): Kind | undefined =>
  words.kinds.find((each) => each.kind === kind);

/** The part that a port belongs to: tags may hold dots, port names do not. */
export const tagOf = (port: string) => port.slice(0, port.lastIndexOf('.'));
export const portOf = (port: string) => port.slice(port.lastIndexOf('.') + 1);

function entriesOf(page: Page, ports: Set<string>): Entry[] {
  const lines = Array.isArray(page.tree.lines) ? page.tree.lines : [];
  const found: Entry[] = [];
  lines.forEach((each, line) => {
    if (each === null || typeof each !== 'object' || Array.isArray(each)) return;
    const to = Array.isArray(each.to) ? each.to : [each.to];
    const [from, end] = [each.from, to[0]];
    if (typeof from !== 'string' || typeof end !== 'string' || to.length !== 1) return;
    if (!each.hose && !each.tube && ports.has(from) && ports.has(end)) found.push({ line, from, to: end });
  });
  return found;
}

/** All lines, in the order of the parts they begin at. */
export function linesOf(page: Page): Line[] {
  const seen = new Set<string>();
  const lines: Line[] = [];
  for (const part of page.parts) {
    for (const port of part.ports) {
      if (seen.has(port.name) || port.joined.length === 0) continue;
      const ports = [port.name, ...port.joined];
      for (const each of ports) seen.add(each);
      lines.push({ ports, motion: port.domain === 'motion', entries: entriesOf(page, new Set(ports)) });
    }
  }
  return lines;
}

/** The line that a group of the drawing stands for; a mark of a reservoir has one port and the reservoir's tag. */
export function lineOf(lines: Line[], name: string): Line | undefined {
  const words = name.split(' ');
  return lines.find((line) => line.ports.some((port) => words.includes(port)));
}

/** What a port is joined to, in a few words. */
export function joinedTo(port: PartPort): string {
  if (port.plugged) return 'plugged';
  if (port.joined.length > 0) return port.joined.join(', ');
  return port.needed ? 'not joined yet' : 'free';
}

const oilPorts = (kind: Kind) => kind.ports.filter((port) => port.domain === 'oil');

/** Kinds that can be put onto a line: oil goes in and comes out again. */
export const fitsOnto = (kind: Kind) => oilPorts(kind).filter((port) => !port.pilot).length >= 2;
/** Kinds that can hang on a line of oil, or on a rod. */
export const fitsBranch = (kind: Kind, motion: boolean) =>
  kind.ports.some((port) => (port.domain === 'motion') === motion);

/** Ports of other lines that a port could be joined to, by part. */
export function partners(page: Page, port: PartPort): { part: Part; ports: PartPort[] }[] {
  const mine = new Set([port.name, ...port.joined]);
  return page.parts
    .map((part) => ({
      part,
      ports: part.ports.filter(
        (each) => !mine.has(each.name) && !each.plugged && each.domain === port.domain,
      ),
    }))
    .filter((each) => each.ports.length > 0);
}
