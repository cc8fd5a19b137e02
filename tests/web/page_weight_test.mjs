// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the page weighs on the wire, and that the watch over its requests and its policy would see what it looks for.
import assert from 'node:assert/strict';
import { goTo, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const stand = { jobs: { 'stand.toml': job('drilling-stand.toml') }, first: 'stand.toml' };
const rooms = ['Job', 'Circuit', 'Cycle', 'Knobs', 'Verdict', 'Spread', 'Faults', 'Readings'];

story('all files of the page together weigh less than 300 kB', stand, async ({ page, address, context }) => {
  await verdictReads(page, /^Held\./);
  const stranger = await context.browser().newContext();  // has nothing in its cache
  const first = await stranger.newPage();
  const files = [];
  first.on('requestfinished', (request) => {
    if (!request.url().startsWith(`${address}api/`)) files.push(request);
  });
  await first.goto(page.url());
  await verdictReads(first, /^Held\./);
  for (const room of rooms) await goTo(first, room);
  const names = files.map((request) => request.url().slice(address.length) || 'index.html');
  assert.ok(names.some((name) => name.endsWith('.js')) && names.some((name) => name.endsWith('.css')), names.join(' '));
  let weight = 0;
  for (const request of files) {
    const { responseBodySize, responseHeadersSize } = await request.sizes();
    weight += responseBodySize + responseHeadersSize;
  }
  assert.ok(weight < 300_000, `${weight} bytes in ${names.join(', ')}`);
  assert.ok(weight > 10_000, `${weight} bytes is no page`);
  await stranger.close();
});

story('the watch over the page sees a foreign request, an inline script and an error', stand, async ({ page, troubles }) => {
  await verdictReads(page, /^Held\./);
  await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'window.ran = true';
    document.body.append(script);
    void fetch('https://elsewhere.invalid/').catch(() => undefined);
    setTimeout(() => {
      throw new Error('made by the test');
    });
  });
  await eventually(() => {
    for (const trouble of [/content security policy.*script-src/, /content security policy.*connect-src/, /made by the test/]) {
      assert.ok(troubles.some((each) => trouble.test(each)), `${trouble} in\n${troubles.join('\n')}`);
    }
  });
  assert.equal(await page.evaluate(() => window.ran), undefined, 'the policy keeps inline scripts from running');
  troubles.length = 0;
});
