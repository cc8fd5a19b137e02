// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Drawings of the server as elements of the page.
import { inTheDark } from './colour';

/** Reads SVG as a document of its own, so that no text of it is ever taken for markup of the page; null: it is none. */
export function svgOf(text: string): SVGSVGElement | null {
  const bare = text.replace(/<style[\s\S]*?<\/style>/g, '');
  const root = new DOMParser().parseFromString(bare, 'image/svg+xml').documentElement;
  if (root.nodeName !== 'svg') return null;
  for (const each of root.querySelectorAll('script, foreignObject')) each.remove();
  return document.importNode(root, true) as unknown as SVGSVGElement;
}

/** Turns the colours of a drawing made for white paper into those for a dark page. */
export function darken(svg: SVGSVGElement): void {
  for (const name of ['stroke', 'fill']) {
    for (const each of svg.querySelectorAll(`[${name}^="#"]`)) {
      const colour = each.getAttribute(name);
      if (colour && colour.length === 7) each.setAttribute(name, inTheDark(colour));
    }
  }
}

export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** The rectangle about all boxes that have a size. */
export function around(boxes: Box[]): Box | null {
  const real = boxes.filter((box) => box.width > 0 || box.height > 0);
  if (real.length === 0) return null;
  const x = Math.min(...real.map((box) => box.x));
  const y = Math.min(...real.map((box) => box.y));
  const right = Math.max(...real.map((box) => box.x + box.width));
  const low = Math.max(...real.map((box) => box.y + box.height));
  return { x, y, width: right - x, height: low - y };
}

export function wider(box: Box, by: number): Box {
  return { x: box.x - by, y: box.y - by, width: box.width + 2 * by, height: box.height + 2 * by };
}

/** The rectangle about what is drawn, without the paper. The drawing must stand in the page. */
export function drawnBox(svg: SVGSVGElement): Box | null {
  return around([...svg.querySelectorAll<SVGGElement>(':scope > g')].map((group) => group.getBBox()));
}
