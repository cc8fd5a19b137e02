// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Playing the cycle at the speed of the machine, or at a quarter of it; it stops at the end.

export class Player {
  playing = $state(false);
  speed = $state(1);
  #last = 0;
  #handle = 0;

  constructor(
    private readonly now: () => number,
    private readonly end: () => number,
    private readonly go: (time: number) => void,
  ) {}

  play(): void {
    if (this.playing) return;
    if (this.now() >= this.end() - 1e-6) this.go(0);
    this.playing = true;
    this.#last = performance.now();
    this.#handle = requestAnimationFrame(this.#tick);
  }
  pause(): void {
    this.playing = false;
    cancelAnimationFrame(this.#handle);
  }
  turn(): void {
    if (this.playing) this.pause();
    else this.play();
  }

  #tick = (at: number): void => {
    if (!this.playing) return;
    const next = this.now() + Math.max(0, ((at - this.#last) / 1000) * this.speed);
    this.#last = at;
    this.go(Math.min(next, this.end()));
    if (next >= this.end()) this.pause();
    else this.#handle = requestAnimationFrame(this.#tick);
  };
}
