// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// One page, one script, one style sheet, all with relative addresses: the page lies below a token it never handles.
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

export default defineConfig({
  base: './',
  plugins: [svelte()],
  build: {
    target: 'es2022',
    assetsDir: '.',
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    modulePreload: false,
    sourcemap: false,
    rollupOptions: {
      output: {
        inlineDynamicImports: true,
        entryFileNames: 'app-[hash].js',
        assetFileNames: 'app-[hash][extname]',
      },
    },
  },
});
