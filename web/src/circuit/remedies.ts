// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What an open port most likely waits for, from its own words and from what else is open.
import type { Page, Part, PartPort, Words } from '../api';
import { partners } from './lines';

interface OpenPort {
  part: Part;
  port: PartPort;
  /** Ports that are offered with one click, the likeliest first. */
  likely: string[];
}

const toTank = /\b(tank|drain|drained|return|suction|sucks|reservoir)\b/i;

function reservoirs(page: Page, words: Words): string[] {
  const tags = page.parts.filter(
    (part) => words.kinds.find((kind) => kind.kind === part.kind)?.role === 'reservoir',
  );
  return tags.flatMap((part) => part.ports.slice(0, 1).map((port) => port.name));
}

export function openPorts(page: Page, words: Words): OpenPort[] {
  const waiting = new Set(page.open.map((each) => each.port));
  const tanks = reservoirs(page, words);
  const found: OpenPort[] = [];
  for (const part of page.parts) {
    for (const port of part.ports) {
      if (!waiting.has(port.name)) continue;
      const offered = partners(page, port).filter((each) => each.part.tag !== part.tag);
      const alsoOpen = offered.flatMap((each) => each.ports).filter((each) => waiting.has(each.name));
      const tank = port.domain === 'oil' && toTank.test(port.meaning) ? tanks.slice(0, 1) : [];
      const likely = [...new Set([...tank, ...alsoOpen.map((each) => each.name)])].slice(0, 3);
      found.push({ part, port, likely });
    }
  }
  return found;
}
