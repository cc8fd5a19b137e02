// Copyright 2026 The Poise founders. Licence: Apache-2.0.
import { chromium } from 'playwright-core';

const flags = [
  '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update',
  '--disable-sync',
];

/** Debian's Chromium with a new, empty profile in a temporary folder, which is what Playwright begins with. */
export const openBrowser = () =>
  chromium.launch({
    executablePath: process.env.POISE_CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    chromiumSandbox: false,
    args: flags,
  });
