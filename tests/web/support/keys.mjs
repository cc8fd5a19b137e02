// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A person without a mouse.
import assert from 'node:assert/strict';
import { eventually } from './story.mjs';

/** What has the focus, in words; nothing where it is lost. */
const focused = (page) =>
  page.evaluate(() => {
    const node = document.activeElement;
    if (!node || node === document.body || node === document.documentElement) return null;
    return `${node.tagName.toLowerCase()} “${(node.getAttribute('aria-label') ?? node.innerText ?? '').trim().slice(0, 60)}”`;
  });

/** The focus is somewhere, and it is seen there: an outline around it or around the entry that stands for it. */
export async function focusIsSeen(page, after) {
  await eventually(async () => assert.ok(await focused(page), `the focus is lost after ${after}`), 5000);
  const seen = await page.evaluate(() => {
    const node = document.activeElement;
    const entry = document.getElementById(node.getAttribute('aria-activedescendant') ?? '');
    const drawn = (each) => {
      const style = getComputedStyle(each);
      return (style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2) || style.boxShadow !== 'none';
    };
    // Headings and rooms that a jump leads to are no controls: they take the focus without a ring.
    const place = node.tabIndex < 0 && /^(H\d|MAIN)$/.test(node.tagName);
    return place || drawn(node) || (entry !== null && drawn(entry));
  });
  assert.ok(seen, `the focus on ${await focused(page)} is not seen after ${after}`);
}

/** Presses Tab until this has the focus. */
export async function tabTo(page, locator, back = false) {
  await locator.waitFor();
  for (let i = 0; i < 250; ++i) {
    if (await locator.evaluate((node) => node === document.activeElement)) return focusIsSeen(page, 'Tab');
    await page.keyboard.press(back ? 'Shift+Tab' : 'Tab');
  }
  assert.fail(`Tab does not lead to ${locator}`);
}

/** Presses keys one after the other; after each the focus must still be somewhere and seen. */
export async function press(page, ...keys) {
  for (const key of keys) {
    await page.keyboard.press(key);
    await focusIsSeen(page, key);
  }
}
