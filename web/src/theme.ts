// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Light or dark as the system asks, until the switch in the header says otherwise.

type Theme = 'light' | 'dark';
const kept = 'poise theme';
const dark = window.matchMedia('(prefers-color-scheme: dark)');

function chosen(): Theme | null {
  try {
    const word = localStorage.getItem(kept);
    return word === 'light' || word === 'dark' ? word : null;
  } catch {
    return null;
  }
}

function put(theme: Theme): void {
  document.documentElement.dataset.theme = theme;
}

export function theme(): Theme {
  return chosen() ?? (dark.matches ? 'dark' : 'light');
}

export function startTheme(): void {
  put(theme());
  dark.addEventListener('change', () => put(theme()));
}

/** Shows the other one from now on, and remembers it only where it differs from what the system asks. */
export function turnTheme(): void {
  const next: Theme = theme() === 'dark' ? 'light' : 'dark';
  const asSystem = (dark.matches ? 'dark' : 'light') === next;
  try {
    if (asSystem) localStorage.removeItem(kept);
    else localStorage.setItem(kept, next);
  } catch {
    // A browser that keeps nothing still turns the page for now.
  }
  put(next);
}
