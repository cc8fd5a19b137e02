// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Hands on a scrolled view: wheel with Ctrl and two fingers zoom, a mouse held on empty paper moves it.

interface Hands {
  /** Zooms by a factor about a point of the screen. */
  zoom: (by: number, x: number, y: number) => void;
  /** Whether a press at this element may move the paper. */
  isPaper: (target: EventTarget | null) => boolean;
}

const apart = (a: Touch, b: Touch) => Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY);

/** Gives the view hands; the result takes them away again. */
export function giveHands(view: HTMLElement, hands: Hands): () => void {
  let spread = 0;
  let held: { x: number; y: number; id: number } | null = null;

  const wheel = (event: WheelEvent) => {
    if (!event.ctrlKey) return;
    event.preventDefault();
    hands.zoom(Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0025)), event.clientX, event.clientY);
  };
  const touch = (event: TouchEvent) => {
    const [a, b] = [event.touches[0], event.touches[1]];
    if (!a || !b) {
      spread = 0;
      return;
    }
    event.preventDefault();
    const now = apart(a, b);
    if (spread > 0) hands.zoom(now / spread, (a.clientX + b.clientX) / 2, (a.clientY + b.clientY) / 2);
    spread = now;
  };
  const press = (event: PointerEvent) => {
    if (event.pointerType !== 'mouse' || event.button > 1 || !hands.isPaper(event.target)) return;
    held = { x: event.clientX, y: event.clientY, id: event.pointerId };
  };
  const move = (event: PointerEvent) => {
    if (!held || held.id !== event.pointerId) return;
    if (!view.hasPointerCapture(held.id)) view.setPointerCapture(held.id);
    view.scrollBy(held.x - event.clientX, held.y - event.clientY);
    held.x = event.clientX;
    held.y = event.clientY;
  };
  const release = () => (held = null);

  view.addEventListener('wheel', wheel, { passive: false });
  view.addEventListener('touchstart', touch, { passive: false });
  view.addEventListener('touchmove', touch, { passive: false });
  view.addEventListener('touchend', touch);
  view.addEventListener('pointerdown', press);
  view.addEventListener('pointermove', move);
  view.addEventListener('pointerup', release);
  view.addEventListener('pointercancel', release);
  return () => {
    view.removeEventListener('wheel', wheel);
    view.removeEventListener('touchstart', touch);
    view.removeEventListener('touchmove', touch);
    view.removeEventListener('touchend', touch);
    view.removeEventListener('pointerdown', press);
    view.removeEventListener('pointermove', move);
    view.removeEventListener('pointerup', release);
    view.removeEventListener('pointercancel', release);
  };
}
