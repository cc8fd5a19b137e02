// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What is read off the curves and the clock of a run: values that differ are never told as one, long times are told in
// hours and minutes, and opening a job runs it once.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { button, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const stand = await readFile(job('drilling-stand.toml'), 'utf8');
const cycle = { jobs: { 'stand.toml': stand }, first: 'stand.toml', hash: '#job=stand.toml&room=cycle&at=2' };

/** Sets the positions of the two rams to these, in the answer of every run. */
async function ramsStandAt(page, positions) {
  await page.unroute('**/prove?*');
  await page.route('**/prove?*', async (route) => {
    const response = await route.fetch();
    const answer = await response.json();
    for (const { curves } of answer.panels) {
      for (const curve of curves) {
        const at = positions[curve.name];
        if (at !== undefined) curve.values = curve.values.map(() => at);
      }
    }
    await route.fulfill({ response, json: answer });
  });
  await page.reload();
}
const entries = (page) => page.getByRole('region', { name: /^position, mm$/i }).getByRole('listitem').filter({ hasText: /\bR\d/ });
const legendReads = (page, texts) =>
  eventually(async () => assert.deepEqual((await entries(page).allInnerTexts()).map((each) => each.replace(/\s+/g, ' ').trim()), texts));

story('curves on each other share a pen and tell each value that differs; others have a pen of their own', cycle, async ({ page }) => {
  // 0.02 mm of a panel that spans 18.06 mm is 0.11 %: one line on the screen, and two readings to three figures.
  await ramsStandAt(page, { 'R1.position': 18.04, 'R2.position': 18.06 });
  await legendReads(page, ['R1, R2 18 / 18.1']);
  await ramsStandAt(page, { 'R1.position': 18.06, 'R2.position': 18.06 });
  await legendReads(page, ['R1, R2 18.1']);
  // 0.1 mm of 18.14 mm is 0.55 %.
  await ramsStandAt(page, { 'R1.position': 18.04, 'R2.position': 18.14 });
  await legendReads(page, ['R1 18', 'R2 18.1']);
});

// 0.5 s, 4 s and 41784.2 s are 41788.7 s: 11 h is 39600 s, 36 min are 2160 s, 28.7 s are left.
const overnight = stand.replace(/(name = "drill"[^]*?lasts = )"2.5 s"/, '$1"41784.2 s"');
story('times of a job that stands overnight are told in hours and minutes', { jobs: { 'night.toml': overnight }, first: 'night.toml', hash: '#job=night.toml&room=verdict' }, async ({ page }) => {
  const drill = page.getByRole('table', { name: 'The steps that the run came to' }).getByRole('row', { name: /^drill/ });
  await drill.getByRole('cell', { name: '11 h 36 min 29 s', exact: true }).waitFor();
  await drill.getByRole('cell', { name: '4.50 s', exact: true }).waitFor();
  await page.getByRole('link', { name: 'drill', exact: true }).click();
  await page.getByRole('img', { name: /^Circuit at 4\.50 s, step drill/ }).waitFor();
  await button(page, "To the step's end").click();
  await page.getByRole('img', { name: /^Circuit at 11 h 36 min 29 s, / }).waitFor();
});

story('a job whose curves were chosen before is run once as it is opened', cycle, async ({ page }) => {
  await verdictReads(page, /^Held\./);
  await button(page, 'Choose curves …').click();
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('searchbox', { name: 'Filter' }).fill('V3');
  await dialog.getByRole('checkbox').first().check();
  await button(page, 'Show these').click();
  await verdictReads(page, /^Held\./);
  const asked = [];
  page.on('request', (request) => {
    if (request.url().includes('/prove?')) asked.push(request.postDataJSON().signals);
  });
  await page.reload();
  await verdictReads(page, /^Held\./);
  await page.getByRole('img', { name: /^Circuit at 2\.00 s/ }).waitFor();
  assert.equal(asked.length, 1);
  assert.ok(asked[0].some((name) => name.startsWith('V3.')), `${asked[0]}`);
});
