// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A job that has changed since it was run: no room says any more that it holds, until it has been run again.
import assert from 'node:assert/strict';
import { button, fill, goTo, link, verdictLine, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { story } from './support/story.mjs';

const stand = { jobs: { 'stand.toml': job('drilling-stand.toml') }, first: 'stand.toml', hash: '#job=stand.toml&room=circuit&part=V3' };
const runs = '**/prove*';
const refuse = (route) => route.fulfill({ status: 422, json: { sentence: 'this run was refused by the test' } });

/** Nothing in the page claims that the job holds now. */
async function saysOnlyHowItWas(page) {
  assert.match((await verdictLine(page).innerText()).trim(), /^Before the last change: Held\. /);
  assert.equal(await page.locator('.verdict-line').getAttribute('data-outcome'), 'none', 'no colour of an answer');
  assert.equal(await page.locator('[data-outcome="held"], [data-answer="held"]').count(), 0, 'no mark of an answer');
  assert.equal(await page.getByText(/^(held\b.*|Held\b.*|All \d+ hold.*)$/).count(), 0, 'no word of an answer');
}

story('after a change whose run is refused the old answer is told as the old one, and the job can be run again', stand, async ({ page }) => {
  await verdictReads(page, /^Held\. Least room: /);
  await page.route(runs, refuse);
  await fill(page, 'Setting, V3', '209 bar');
  await page.getByRole('alert').getByText('this run was refused by the test').waitFor();
  await button(page, 'Run again').waitFor();
  await saysOnlyHowItWas(page);
  await goTo(page, 'Verdict');
  await page.getByRole('row', { name: /^was held / }).first().waitFor();
  await saysOnlyHowItWas(page);
  await goTo(page, 'Job');
  await page.getByText(/before the last change: held: lowest /).first().waitFor();
  await saysOnlyHowItWas(page);
  await goTo(page, 'Verdict');

  await page.unroute(runs);
  await button(page, 'Run again').click();
  await verdictReads(page, /^Held\. Least room: /);
  await page.getByRole('row', { name: /^held / }).first().waitFor();
  assert.equal(await button(page, 'Run again').count(), 0);
});

story('while a changed job is being run the old answer is told as the old one', stand, async ({ page }) => {
  await verdictReads(page, /^Held\. Least room: /);
  let letGo;
  const gate = new Promise((resolve) => (letGo = resolve));
  await page.route(runs, async (route) => {
    await gate;
    await route.continue();
  });
  await fill(page, 'Setting, V3', '209 bar');
  await page.getByText('running …').waitFor();
  await saysOnlyHowItWas(page);
  await link(page, 'Knobs').click();
  await saysOnlyHowItWas(page);
  letGo();
  await verdictReads(page, /^Held\. Least room: /);
});
