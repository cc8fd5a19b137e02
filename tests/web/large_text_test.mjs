// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Text at 200 %, and a page as narrow as a zoom of 400 % makes it: nothing is cut off, and only drawings, charts and
// tables scroll sideways.
import assert from 'node:assert/strict';
import { everyRoom, jobs } from './support/rooms.mjs';
import { story } from './support/story.mjs';

/** Runs in the page: how far the page scrolls sideways, and the words that their button or field cuts off. */
function cutOff() {
  const found = [];
  const root = document.scrollingElement;
  if (root.scrollWidth > root.clientWidth) found.push(`the page scrolls sideways by ${root.scrollWidth - root.clientWidth} px`);
  const seen = (node) => node.checkVisibility({ visibilityProperty: true }) && node.getClientRects().length > 0;
  const words = (node) => `${node.tagName.toLowerCase()} “${(node.getAttribute('aria-label') ?? node.innerText ?? node.value ?? '').trim().slice(0, 60)}”`;
  const pen = document.createElement('canvas').getContext('2d');
  for (const node of document.querySelectorAll('button, summary, nav a, label')) {
    if (!seen(node) || node.closest('.unseen, .skip, svg')) continue;
    const box = node.getBoundingClientRect();
    const walker = document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
    for (let text = walker.nextNode(); text; text = walker.nextNode()) {
      if (!text.data.trim() || text.parentElement.closest('.unseen, svg, select, textarea')) continue;
      // A remark that is shortened on purpose stands in full in the title.
      if (getComputedStyle(text.parentElement).textOverflow === 'ellipsis' && text.parentElement.title) continue;
      const range = document.createRange();
      range.selectNodeContents(text);
      for (const line of range.getClientRects()) {
        if (line.left < box.left - 1.5 || line.right > box.right + 1.5) found.push(`${words(node)} is wider than its box: ${text.data.trim()}`);
        else if (line.right > window.innerWidth + 1 && root.scrollWidth <= root.clientWidth && !node.closest('.view, .wide, .scroll')) {
          found.push(`${words(node)} leaves the window`);
        }
      }
    }
  }
  for (const node of document.querySelectorAll('input:not([type=range], [type=radio], [type=checkbox]), select')) {
    if (!seen(node)) continue;
    const style = getComputedStyle(node);
    const text = node.tagName === 'SELECT' ? (node.selectedOptions[0]?.text ?? '') : node.value;
    if (text.length > 20) continue; // sentences of one's own may be longer than their field
    pen.font = style.font;
    const free = node.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - (node.tagName === 'SELECT' ? 16 : 0);
    const needed = pen.measureText(text).width;
    if (needed > free + 1) found.push(`${words(node)} shows ${Math.round(free)} px of the ${Math.round(needed)} px of “${text}”`);
    if (node.clientHeight + 1 < parseFloat(style.fontSize)) found.push(`${words(node)} is lower than its text`);
  }
  return [...new Set(found)];
}

const views = [
  { name: 'text at 200 % at a desk', size: { width: 1440, height: 900 }, large: true },
  { name: 'text at 200 % on a tablet', size: { width: 768, height: 1024 }, large: true },
  { name: 'a page 320 pixels wide', size: { width: 320, height: 640 }, large: false },
];
for (const { name, size, large } of views) {
  story(`${name}: nothing is cut off`, { jobs, size }, async ({ page, address }) => {
    if (large) {
      await page.addInitScript(() => document.addEventListener('DOMContentLoaded', () => (document.documentElement.style.fontSize = '200%')));
      await page.reload();
    }
    const found = [];
    await everyRoom(page, address, async (room) => {
      for (const each of await page.evaluate(cutOff)) found.push(`${room}: ${each}`);
    });
    assert.equal(found.join('\n'), '');
  });
}

story('the measure of what is cut off sees a page that scrolls sideways, cut words and a field too small', { jobs }, async ({ page }) => {
  await page.getByRole('heading', { name: 'A new job' }).waitFor();
  assert.deepEqual(await page.evaluate(cutOff), []);
  await page.getByRole('textbox', { name: 'Title' }).fill('Lift in bay 4');
  await page.evaluate(() => {
    Object.assign(document.querySelector('#new-title').style, { width: '4rem', minWidth: '0' });
    Object.assign(document.querySelector('form [type=submit]').style, { width: '2rem', whiteSpace: 'nowrap' });
    Object.assign(document.querySelector('main').style, { width: '200vw' });
  });
  const found = (await page.evaluate(cutOff)).join('\n');
  assert.match(found, /the page scrolls sideways/);
  assert.match(found, /button “Make lift-in-bay-4\.toml” is wider than its box/);
  assert.match(found, /shows \d+ px of the \d+ px of “Lift in bay 4”/);
});
