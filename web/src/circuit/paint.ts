// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the page adds to a drawing: places to hit with pointer or finger, and the marks of what is selected.
import { around, wider, type Box } from './ink';

const space = 'http://www.w3.org/2000/svg';

function rectangle(box: Box, kind: string): SVGRectElement {
  const rect = document.createElementNS(space, 'rect');
  rect.setAttribute('class', kind);
  for (const side of ['x', 'y', 'width', 'height'] as const) rect.setAttribute(side, String(box[side]));
  rect.setAttribute('rx', '0.8');
  return rect;
}

export const partsOf = (svg: SVGSVGElement) => [...svg.querySelectorAll<SVGGElement>('g.part[data-name]')];
export const linesOf = (svg: SVGSVGElement) => [...svg.querySelectorAll<SVGGElement>('g.line[data-name]')];

/** The box of a part's symbol; its words lie outside of it. */
export function symbolBox(part: SVGGElement): Box {
  const strokes = [...part.querySelectorAll<SVGGraphicsElement>('.symbols')].map((each) => each.getBBox());
  return around(strokes) ?? part.getBBox();
}

/** Widens lines by transparent copies that are as broad on any screen, and fills the gaps of symbols. */
export function addTargets(svg: SVGSVGElement): void {
  for (const line of linesOf(svg)) {
    for (const path of line.querySelectorAll<SVGPathElement>('path:not(.flow):not([fill]):not(.symbols)')) {
      const copy = document.createElementNS(space, 'path');
      copy.setAttribute('class', 'target');
      copy.setAttribute('d', path.getAttribute('d') ?? '');
      line.append(copy);
    }
  }
  for (const part of partsOf(svg)) part.prepend(rectangle(wider(symbolBox(part), 0.6), 'target'));
}

interface Marked {
  part: string | null;
  /** Ports of the selected line. */
  ports: string[];
  /** Parts that a complaint is about. */
  flagged: string[];
}

/** Marks what is selected, and takes away the marks of before. */
export function mark(svg: SVGSVGElement, marked: Marked): void {
  for (const old of svg.querySelectorAll('.halo, .flag')) old.remove();
  const ports = new Set(marked.ports);
  for (const line of linesOf(svg)) {
    const names = (line.dataset.name ?? '').split(' ');
    line.classList.toggle('selected', names.some((name) => ports.has(name)));
  }
  for (const part of partsOf(svg)) {
    const tag = part.dataset.name ?? '';
    part.classList.toggle('selected', tag === marked.part);
    if (tag === marked.part) part.prepend(rectangle(wider(symbolBox(part), 1.4), 'halo'));
    else if (marked.flagged.includes(tag)) part.prepend(rectangle(wider(symbolBox(part), 1.1), 'flag'));
  }
}
