// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Every room with real content in it, one after the other: what is examined in all of them is told once.
import { faultsOf, spreadOf, standIn, standInForReadings } from './made_up.mjs';
import { goTo, panelOf, pointAtLine, verdictReads } from './person.mjs';
import { job } from './program.mjs';
import { readFile } from 'node:fs/promises';

const stand = await readFile(job('drilling-stand.toml'), 'utf8');
/** The stand as it is; with its sequence valve set too low; and with a value that has no unit. */
export const jobs = {
  'stand.toml': stand,
  'too-low.toml': stand.replace('setting = "120 bar"', 'setting = "50 bar"'),
  'no-unit.toml': stand.replace('setting = "210 bar"', 'setting = "210"'),
};

const at = (name, room, more = '') => `#job=${name}&room=${room}${more}`;
async function visit(page, address, hash) {
  await page.goto(address + hash);
}

/** Calls `look(title)` in each room once all of it is there; what studies tell is made up. */
export async function everyRoom(page, address, look) {
  let running = true;
  await standIn(page, (kind) => ({
    running,
    share: 0.412,
    left: running ? 3400 : null,
    trouble: running ? '' : 'stand.studies cannot be written: the disk is full.',
    of_this_text: running,
    answer: kind === 'spread' ? spreadOf(412, 1000) : faultsOf(21),
  }));
  await visit(page, address, '#jobs');
  await page.getByRole('heading', { name: 'A new job' }).waitFor();
  await page.getByRole('radio', { name: /^Single lift/ }).check();
  await look('Start');

  await visit(page, address, at('no-unit.toml', 'job'));
  await verdictReads(page, /^Cannot run: 1 thing to mend/);
  await page.getByRole('button', { name: /^Go there: setting of V3/ }).click();
  await page.getByText(/"210" has no unit/).last().waitFor();
  await look('Job with a complaint');

  await visit(page, address, at('stand.toml', 'circuit', '&part=V3'));
  await verdictReads(page, /^Held\. Least room: /);
  await page.getByRole('img', { name: /^Circuit diagram/ }).waitFor();
  await (await panelOf(page, 'V3')).getByRole('heading', { name: /^Curve/ }).waitFor();
  await look('Circuit with a part');

  await pointAtLine(page, 'V6.B');
  await page.getByRole('dialog', { name: 'Line' }).waitFor();
  await look('Circuit with a line');

  await visit(page, address, at('stand.toml', 'cycle', '&part=K4&at=2'));
  await page.getByRole('img', { name: /^Circuit at 2\.00 s/ }).waitFor();
  await page.getByText('Figures at the end of each step').click();
  await look('Cycle');

  await visit(page, address, at('stand.toml', 'knobs'));
  await page.getByRole('slider', { name: 'setting of V3', exact: true }).waitFor();
  await look('Knobs');

  await goTo(page, 'Verdict');
  await page.getByRole('table', { name: /^All \d+ hold/ }).waitFor();
  await look('Verdict, held');

  await visit(page, address, at('too-low.toml', 'verdict'));
  await page.getByRole('table', { name: /broken/ }).waitFor();
  await look('Verdict, broken');

  await visit(page, address, at('stand.toml', 'spread'));
  await page.getByRole('progressbar', { name: 'Study under way' }).waitFor();
  await page.getByText('6 tolerances taken').click();
  await page.getByRole('table', { name: 'The tolerances taken' }).waitFor();
  await look('Spread under way');

  await goTo(page, 'Faults');
  await page.getByRole('button', { name: 'spring relaxed, V2' }).first().click();
  await page.getByRole('region', { name: 'grave, V2 spring relaxed' }).waitFor();
  await look('Faults');

  running = false;
  await page.getByText(/^The job has changed since/).waitFor();
  await look('Faults of an earlier text');

  await goTo(page, 'Readings');
  await page.getByRole('button', { name: 'Work it out' }).waitFor();
  await look('Readings before the faults are run');
  await standInForReadings(page);
  await page.reload();
  const fields = page.getByRole('form', { name: 'Readings' }).getByRole('textbox');
  await fields.nth(3).fill('152');
  await fields.nth(4).fill('15 cows');
  await page.getByRole('article', { name: /^V3 spring relaxed/ }).waitFor();
  await page.evaluate(() => window.scrollTo(0, 0));
  await look('Readings');
}
