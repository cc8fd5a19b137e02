// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A story: one folder of jobs, one server, one browser, and what must hold in all of them: nothing is asked of any other
// address, the content security policy is never hit, the page never errs.
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { after, test } from 'node:test';
import { openBrowser } from './browser.mjs';
import { openFolder } from './program.mjs';

/** How long anything may take to be seen; only a hung page takes that long, on a busy machine of two cores too. */
export const patience = 90_000;

let browser = null;
async function running() {
  browser ??= await openBrowser();
  return browser;
}
after(async () => {
  await browser?.close();
});

function watch(page, address, troubles) {
  page.on('console', (message) => {
    // Refusals that the page speaks of itself, such as a run stopped by the next, are logged by the browser as well.
    const refused = /^Failed to load resource: the server responded with a status of 4\d\d/.test(message.text());
    if (['error', 'warning'].includes(message.type()) && !refused) troubles.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => troubles.push(`error on the page: ${error.stack ?? error.message}`));
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !url.startsWith('blob:') && !url.startsWith('data:')) troubles.push(`asked for ${url}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 500) troubles.push(`${response.status()} from ${response.url().replace(address, '')}`);
  });
  page.on('dialog', (dialog) => {
    troubles.push(`dialog of the browser: ${dialog.message()}`);
    void dialog.dismiss();
  });
}

/** Notes every violation of the content security policy where the console might not. */
const reportViolations = () => {
  document.addEventListener('securitypolicyviolation', (event) => {
    console.error(`content security policy: ${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`);
  });
};

/**
 * story(name, { jobs, first, size, dark, hash }, tell): `tell` gets the folder with `page`, the first tab, and `newTab()`.
 */
export function story(name, { jobs = {}, first = null, size = { width: 1440, height: 900 }, dark = false, hash = '' }, tell) {
  test(name, { timeout: 560_000 }, async () => {
    const folder = await openFolder(jobs, first);
    const troubles = [];
    const context = await (await running()).newContext({
      viewport: size,
      colorScheme: dark ? 'dark' : 'light',
      reducedMotion: 'reduce',
    });
    context.setDefaultTimeout(patience);
    await context.addInitScript(reportViolations);
    async function newTab(there = hash) {
      const page = await context.newPage();
      watch(page, folder.address, troubles);
      await page.goto(folder.address + there);
      return page;
    }
    let page;
    try {
      page = await newTab();
      await tell({ ...folder, page, newTab, context, troubles });
      assert.deepEqual(troubles, [], 'troubles of the page behind the story');
    } catch (error) {
      await keepPicture(page, name);
      if (troubles.length > 0) error.message += `\ntroubles of the page: ${troubles.join('\n')}`;
      throw error;
    } finally {
      await context.close();
      await folder.end();
    }
  });
}

/** What was seen when a story went wrong, for who looks into it: POISE_PICTURES names the folder. */
async function keepPicture(page, name) {
  const folder = process.env.POISE_PICTURES;
  if (!folder || !page) return;
  await mkdir(folder, { recursive: true });
  await page.screenshot({ path: `${folder}/${name.replace(/\W+/g, '-')}.png`, timeout: 5000 }).catch(() => undefined);
}

/** Waits until `what` no longer throws, and throws its last complaint if that takes too long. */
export async function eventually(what, most = patience) {
  const end = Date.now() + most;
  for (;;) {
    try {
      return await what();
    } catch (error) {
      if (Date.now() > end) throw error;
      await new Promise((next) => setTimeout(next, 50));
    }
  }
}
