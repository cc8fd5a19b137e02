// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// One job in two tabs: what one writes the other shows, nothing is lost silently, and looking at it in other units is
// nobody else's business.
import assert from 'node:assert/strict';
import { button, fill, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const stand = { jobs: { 'stand.toml': job('drilling-stand.toml') }, first: 'stand.toml', hash: '#job=stand.toml&room=job' };
const title = (page) => page.getByRole('textbox', { name: 'Title', exact: true });
const note = (page) => page.getByRole('textbox', { name: 'Note', exact: true });
const trouble = (page) => page.getByRole('alert');

/** Holds back what a tab writes until it is let go: as if both had pressed Enter at the same moment. */
async function holdBack(page) {
  let letGo;
  const gate = new Promise((resolve) => (letGo = resolve));
  const asked = new Promise((resolve) => {
    void page.route('**/edit*', async (route) => {
      resolve();
      await gate;
      await route.continue();
    });
  });
  return { asked, letGo };
}

story('what one tab writes, the other shows', stand, async ({ page, newTab, read }) => {
  const other = await newTab();
  await title(other).waitFor();
  await fill(page, 'Title', 'Stand in bay 4');
  await other.getByRole('heading', { name: 'Stand in bay 4', level: 1 }).waitFor();
  assert.equal(await title(other).inputValue(), 'Stand in bay 4');
  // Either may take it back.
  await other.getByRole('button', { name: 'Undo: title' }).click();
  await page.getByRole('heading', { name: 'Drilling stand for bogie frames', level: 1 }).waitFor();
  assert.match(await read('stand.toml'), /^title = "Drilling stand for bogie frames"$/m);
});

story('two tabs that write different things at once are both kept', stand, async ({ page, newTab, read }) => {
  const other = await newTab();
  await title(other).waitFor();
  const held = await holdBack(other);
  await note(other).fill('looked over by the night shift');
  await note(other).blur();
  await held.asked;
  await fill(page, 'Title', 'Stand in bay 4');
  held.letGo();
  await eventually(async () => {
    const text = await read('stand.toml');
    assert.match(text, /^title = "Stand in bay 4"$/m);
    assert.match(text, /^note = "looked over by the night shift"$/m);
  });
  assert.equal((await trouble(other).innerText()).trim(), '');
});

story('two tabs that write the same value at once: the second is told, and nothing is overwritten', stand, async ({ page, newTab, read }) => {
  const other = await newTab();
  await title(other).waitFor();
  const held = await holdBack(other);
  await title(other).fill('Stand of the night shift');
  await title(other).press('Enter');
  await held.asked;
  await fill(page, 'Title', 'Stand in bay 4');
  held.letGo();
  await trouble(other).getByText('changed elsewhere meanwhile').waitFor();
  await other.getByRole('heading', { name: 'Stand in bay 4', level: 1 }).waitFor();
  assert.match(await read('stand.toml'), /^title = "Stand in bay 4"$/m);
  assert.equal(await title(other).inputValue(), 'Stand in bay 4', 'the field shows what the file holds');
  await button(other, 'Dismiss').click();
  await fill(other, 'Title', 'Stand of the night shift');
  await page.getByRole('heading', { name: 'Stand of the night shift', level: 1 }).waitFor();
});

story('one click shows other units, in this tab alone and not in the file', stand, async ({ page, newTab, read }) => {
  const before = await read('stand.toml');
  const other = await newTab();
  await verdictReads(page, /^Held\./);
  await page.goto(`${new URL(page.url()).origin}${new URL(page.url()).pathname}#job=stand.toml&room=verdict`);
  const worst = (tab) => tab.getByRole('row', { name: /^held pump line below 225 bar/ });
  await worst(page).getByText(/highest \d+ bar/).waitFor();
  await button(page, 'psi').click();
  await worst(page).getByText(/highest \d{4} psi/).waitFor();
  assert.equal(await button(page, 'psi').getAttribute('aria-pressed'), 'true');
  assert.equal(await button(other, 'bar').getAttribute('aria-pressed'), 'true');
  await page.reload();
  await worst(page).getByText(/highest \d{4} psi/).waitFor();
  await button(page, 'bar').click();
  await worst(page).getByText(/highest \d+ bar/).waitFor();
  assert.equal(await read('stand.toml'), before);
});
