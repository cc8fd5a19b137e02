// Copyright 2026 The Poise founders. Licence: Apache-2.0.
import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';

export default { preprocess: vitePreprocess({ style: false }), compilerOptions: { runes: true } };
