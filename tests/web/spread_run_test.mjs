// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A spread that is really run: begun, stopped, gone on with where it was left, and the same as the command's.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { access } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { button, goTo, verdictReads } from './support/person.mjs';
import { program, start } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const lift = { jobs: { 'lift.toml': start('single-lift.toml') }, first: 'lift.toml' };
const numberIn = (text) => Number(text.replaceAll(',', ''));

/** What the command says of as many machines; it runs none that the page has run. */
async function said(folder, machines) {
  const asked = ['spread', join(folder, 'lift.toml'), '--machines', String(machines), '--resume', '--json'];
  // It ends with 1 where a machine breaks a promise.
  const { stdout } = await promisify(execFile)(program, asked).catch((error) => (error.code === 1 ? error : Promise.reject(error)));
  return JSON.parse(stdout);
}

story('a spread is begun, stopped, gone on with, and the command says the same of it', lift, async ({ page, folder, read, write }) => {
  await verdictReads(page, /./);
  await goTo(page, 'Spread');
  await page.getByRole('radio', { name: '10,000' }).check();
  await button(page, 'Begin').click();
  const bar = page.getByRole('progressbar', { name: 'Study under way' });
  await bar.waitFor();
  await page.getByText(/^Of \d+ machines?/).waitFor();
  // It runs behind every room.
  await goTo(page, 'Verdict');
  await goTo(page, 'Spread');
  await bar.waitFor();
  await button(page, 'Stop').click();
  const status = page.getByRole('main').getByRole('status');
  const stopped = await eventually(async () => {
    const found = /^Stopped: ([\d,]+) of 10,000 machines run/.exec(await status.first().innerText());
    assert.ok(found, 'it says how many were run');
    return numberIn(found[1]);
  });
  await access(join(folder, 'lift.studies'));

  const more = stopped < 100 ? 100 : 1000;
  await page.getByRole('radio', { name: more.toLocaleString('en'), exact: true }).check();
  await button(page, 'Go on').click();
  await bar.waitFor();
  await eventually(async () => assert.match(await status.first().innerText(), /^Done: /));
  const [sentence] = await page.getByText(/^Of [\d,]+ machines/).allInnerTexts();
  const [, done, kept, broken] = /^Of ([\d,]+) machines ([\d,]+) kept every promise, ([\d,]+) broke/.exec(sentence).map(numberIn);
  assert.ok(done >= more);
  const command = await said(folder, done);
  assert.deepEqual([command.done, command.kept, command.broken], [done, kept, broken]);
  assert.equal(await page.getByRole('article').count(), command.promises.length);

  await write('lift.toml', `${await read('lift.toml')}\n# looked over\n`);
  await page.getByText(/^The job has changed since/).waitFor();
  await button(page, 'Begin anew').waitFor();
});
