// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Every room is examined by axe for WCAG 2.2 AA, light and dark, at a desk and on a tablet.
import axe from 'axe-core';
import assert from 'node:assert/strict';
import { everyRoom, jobs } from './support/rooms.mjs';
import { story } from './support/story.mjs';

const all = { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] };
/** What can differ between light and dark: the same page in other colours. */
const colours = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };
const sizes = [{ width: 1440, height: 900 }, { width: 768, height: 1024 }];

/** What axe finds wrong, a line for each thing. */
async function examine(page, runOnly) {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  const { violations, passes } = await page.evaluate((only) => window.axe.run(document, { runOnly: only, resultTypes: ['violations'] }), runOnly);
  assert.ok(passes.some(({ id }) => id === 'color-contrast'), 'axe has looked at the page');
  return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(' ')}\n    ${node.html.slice(0, 160)}\n    ${node.failureSummary?.split('\n').slice(1).join(' ')}`));
}

for (const size of sizes) {
  story(`no room violates WCAG 2.2 AA at ${size.width} by ${size.height}`, { jobs, size }, async ({ page, address }) => {
    const found = [];
    await everyRoom(page, address, async (room) => {
      for (const [colorScheme, rules] of [['light', all], ['dark', colours]]) {
        await page.emulateMedia({ colorScheme });
        for (const violation of await examine(page, rules)) found.push(`${room}, ${colorScheme}: ${violation}`);
      }
    });
    assert.equal(found.join('\n'), '');
  });
}
