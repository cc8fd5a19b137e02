// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// From where to where a slider goes, and in which steps.

interface Bounds {
  low: number;
  high: number;
  step: number;
}

/** 1, 2 or 5 times a power of ten, not above `size`. */
function round(size: number): number {
  const power = 10 ** Math.floor(Math.log10(size));
  const lead = size / power;
  return power * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}

/** Half to one and a half times the value; each `wider` doubles the way to either side. Never beyond what is allowed. */
export function boundsOf(value: number, least: number | null, most: number | null, wider = 0): Bounds {
  const reach = value === 0 ? 10 ** wider : Math.abs(value) * 0.5 * 2 ** wider;
  // A value that is not allowed is complained of elsewhere; here it can still be turned.
  const inside = (least === null || value >= least) && (most === null || value <= most);
  const low = Math.max(value - (value === 0 && wider === 0 ? 0 : reach), inside ? (least ?? -Infinity) : -Infinity);
  const high = Math.min(value + reach, inside ? (most ?? Infinity) : Infinity);
  const step = round(Math.max((high - low) / 150, 1e-12));
  // On whole steps, so that the numbers that the slider writes are short ones; but never outside.
  const whole = { low: Math.ceil(low / step - 1e-9) * step, high: Math.floor(high / step + 1e-9) * step };
  return { low: tidy(whole.low, step), high: tidy(whole.high, step), step };
}

function tidy(value: number, step: number): number {
  const places = Math.max(0, Math.min(12, -Math.floor(Math.log10(step) + 1e-9)));
  return Number(value.toFixed(places));
}

/** What the slider writes into the field. */
export function written(value: number, step: number, unit: string): string {
  const number = String(tidy(value, step));
  return unit ? `${number} ${unit}` : number;
}
