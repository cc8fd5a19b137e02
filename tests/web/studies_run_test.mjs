// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Studies that are really run: begun, stopped, gone on with where they were left, and the same as the commands'.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { access } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { button, goTo, verdictReads } from './support/person.mjs';
import { program, start } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const line = { jobs: { 'line.toml': start('gauge-line.toml') }, first: 'line.toml' };
/** Hundreds of runs take their time where others want the cores too. */
const whileItRuns = 400_000;
const numberIn = (text) => Number(text.replaceAll(',', ''));

/** What a command says of the job; it runs nothing that the page has run. */
async function said(folder, study, ...more) {
  const asked = [study, join(folder, 'line.toml'), '--resume', '--json', ...more];
  // It ends with 1 where a machine breaks a promise.
  const { stdout } = await promisify(execFile)(program, asked).catch((error) => (error.code === 1 ? error : Promise.reject(error)));
  return JSON.parse(stdout);
}

story('a spread is begun, stopped, gone on with, and the command says the same of it', line, async ({ page, folder, read, write }) => {
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
  await access(join(folder, 'line.studies'));

  const more = stopped < 100 ? 100 : 1000;
  await page.getByRole('radio', { name: more.toLocaleString('en'), exact: true }).check();
  await button(page, 'Go on').click();
  await bar.waitFor();
  await eventually(async () => assert.match(await status.first().innerText(), /^Done: /), whileItRuns);
  const [sentence] = await page.getByText(/^Of [\d,]+ machines/).allInnerTexts();
  const [, done, kept, broken] = /^Of ([\d,]+) machines ([\d,]+) kept every promise, ([\d,]+) broke/.exec(sentence).map(numberIn);
  assert.ok(done >= more);
  const command = await said(folder, 'spread', '--machines', String(done));
  assert.deepEqual([command.done, command.kept, command.broken], [done, kept, broken]);
  assert.equal(await page.getByRole('article').count(), command.promises.length);

  await write('line.toml', `${await read('line.toml')}\n# looked over\n`);
  await page.getByText(/^The job has changed since/).waitFor();
  await button(page, 'Begin anew').waitFor();
});

story('the faults of a job are run, shown worst first, and the command says the same of them', line, async ({ page, folder }) => {
  await verdictReads(page, /./);
  await goTo(page, 'Faults');
  await button(page, 'Begin').click();
  await page.getByRole('progressbar', { name: 'Study under way' }).waitFor();
  const status = page.getByRole('main').getByRole('status');
  await eventually(async () => assert.match(await status.first().innerText(), /^Done: \d+ faults run/), whileItRuns);
  const command = await said(folder, 'faults');
  const table = page.getByRole('table', { name: /^Worst first/ });
  const severities = async () => (await table.locator('td.severity').allInnerTexts()).map((text) => text.trim());
  const expected = command.faults.map((fault) => fault.severity);
  assert.deepEqual((await severities()).sort(), expected.sort());
  const one = command.faults.find((fault) => fault.part && fault.severity !== 'nothing breaks');
  assert.ok(one, 'a fault breaks something');
  await page.getByRole('combobox', { name: 'Part' }).selectOption(one.part);
  assert.equal((await severities()).length, command.faults.filter((fault) => fault.part === one.part).length);
  await table.getByRole('button', { name: `${one.fault}, ${one.part}`, exact: true }).click();
  const [size] = one.sizes;
  await table.getByRole('region', { name: `${size.size}, ${one.name}` }).getByText(size.change).first().waitFor();
});
