// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Whether the page is dark now: canvases and recoloured drawings must know, style sheets see it by themselves.

const root = document.documentElement;
const isDark = () => root.dataset.theme === 'dark';

class Light {
  dark = $state(isDark());
}

export const light = new Light();

new MutationObserver(() => (light.dark = isDark())).observe(root, {
  attributes: true,
  attributeFilter: ['data-theme'],
});
