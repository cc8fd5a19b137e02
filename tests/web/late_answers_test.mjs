// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// An answer that comes late acts on nothing that is looked at by then: not on another job, not on another part.
import assert from 'node:assert/strict';
import { fill, panelOf, pointAtLine, selectPart, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { readFile } from 'node:fs/promises';
import { eventually, story } from './support/story.mjs';

const stand = await readFile(job('drilling-stand.toml'), 'utf8');
const other = stand.replace(/^title = .*$/m, 'title = "Stand in bay 9"');
const jobs = { jobs: { 'stand.toml': stand, 'bay-9.toml': other }, first: 'stand.toml' };

/** Holds back the answers to what is asked so until they are let go. */
async function holdAnswers(page, pattern) {
  let letGo;
  const gate = new Promise((resolve) => (letGo = resolve));
  const answered = [];
  await page.route(pattern, async (route) => {
    const response = await route.fetch();
    answered.push(response.status());
    await gate;
    await route.fulfill({ response });
  });
  return { answered: () => eventually(() => assert.ok(answered.length > 0)), letGo };
}

story('a change whose answer comes once another job is open is written to its own job alone', { ...jobs, hash: '#job=stand.toml&room=circuit&part=V3' }, async ({ page, read }) => {
  await verdictReads(page, /^Held\./);
  const held = await holdAnswers(page, '**/edit?*');
  const setting = page.getByRole('textbox', { name: 'Setting, V3', exact: true });
  await setting.fill('209 bar');
  await setting.press('Enter');
  await setting.fill('208 bar'); // waits for its turn behind the first
  await setting.press('Enter');
  await held.answered();
  await page.evaluate(() => (location.hash = '#job=bay-9.toml&room=circuit&part=V3'));
  held.letGo();
  await page.getByRole('heading', { name: 'Stand in bay 9', level: 1 }).waitFor();
  await verdictReads(page, /^Held\./);
  await panelOf(page, 'V3');
  await eventually(async () => assert.match(await read('stand.toml'), /^setting = "208 bar"/m));
  assert.equal(await setting.inputValue(), '210 bar');
  assert.equal(await read('bay-9.toml'), other);
  assert.equal((await page.getByRole('alert').innerText()).trim(), '');
  await page.unroute('**/edit?*');
  await fill(page, 'Setting, V3', '207 bar');
  await eventually(async () => assert.match(await read('bay-9.toml'), /^setting = "207 bar"/m));
});

story('a part that comes late is not selected over the one that was selected meanwhile', { ...jobs, hash: '#job=stand.toml&room=circuit&part=G1' }, async ({ page, read }) => {
  await panelOf(page, 'G1');
  const held = await holdAnswers(page, '**/circuit?*');
  await page.getByRole('button', { name: 'Duplicate branch' }).click();
  await held.answered();
  await selectPart(page, 'V3');
  held.letGo();
  await page.getByRole('button', { name: /^Undo: / }).waitFor();
  await panelOf(page, 'V3');
  assert.notEqual(await read('stand.toml'), stand, 'the branch was duplicated');
});

story('the menu of a line does not open once a part is selected', { ...jobs, hash: '#job=stand.toml&room=circuit' }, async ({ page }) => {
  await page.getByRole('img', { name: /^Circuit diagram/ }).waitFor();
  const held = await holdAnswers(page, '**/sides?*');
  await pointAtLine(page, 'V6.B');
  await held.answered();
  await selectPart(page, 'V3');
  const came = page.waitForResponse(/sides/);
  held.letGo();
  await came;
  await page.evaluate(() => new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next))));
  assert.equal(await page.getByRole('dialog', { name: 'Line' }).count(), 0);
  await panelOf(page, 'V3');
});
