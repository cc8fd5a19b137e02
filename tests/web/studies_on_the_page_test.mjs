// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the rooms Spread and Faults make of what a study tells, by made-up answers: nothing is run here.
import assert from 'node:assert/strict';
import { focusIsSeen, press, tabTo } from './support/keys.mjs';
import { faultsOf, spreadOf, standIn } from './support/made_up.mjs';
import { button, goTo, panelOf, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const stand = { jobs: { 'stand.toml': job('drilling-stand.toml') }, first: 'stand.toml' };
const region = (page, name) => page.getByRole('article', { name, exact: true });
const machines = (page, count) => page.getByRole('radio', { name: count, exact: true });

story('a spread is begun, watched while rows arrive, stopped and gone on with', stand, async ({ page }) => {
  let done = 0;
  const wishes = await standIn(page, (_, wished) => {
    const running = wished.at(-1)?.what === 'begin';
    return { running, share: done / 1000, left: running ? 34 : null, answer: done > 0 ? spreadOf(done, 1000) : null };
  });
  await goTo(page, 'Spread');
  await page.getByText('None has been run yet.').waitFor();
  assert.ok(await machines(page, '1,000').isChecked());
  await machines(page, '10,000').check();
  await button(page, 'Begin').click();
  await page.getByRole('progressbar', { name: 'Study under way' }).waitFor();
  assert.deepEqual(wishes, [{ what: 'begin', kind: 'spread', wanted: 10000 }]);
  done = 100;
  await page.getByText(/^Of 100 machines/).waitFor();
  await page.getByText('10 %, 34 s left').waitFor();
  done = 412;
  await page.getByText(/^Of 412 machines/).waitFor();
  await button(page, 'Stop').click();
  await page.getByText('Stopped: 412 of 10,000 machines run. They are kept.').waitFor();
  assert.deepEqual(wishes.at(-1), { what: 'stop', kind: 'spread' });
  // Fewer than there are already: nothing is left to do.
  await machines(page, '100').check();
  await page.getByText('Done: 412 machines run.').waitFor();
  assert.equal(await button(page, 'Go on').count(), 0);
  await machines(page, '1,000').check();
  await button(page, 'Go on').click();
  await eventually(() => assert.deepEqual(wishes.at(-1), { what: 'begin', kind: 'spread', wanted: 1000 }));
});

story('a spread says how many keep every promise, and of each promise its room, drivers and what breaks it', stand, async ({ page }) => {
  const answer = spreadOf(1000, 1000);
  await standIn(page, () => ({ answer }));
  await goTo(page, 'Spread');
  const percent = (share) => (100 * share).toFixed(1);
  const { share, low, high } = answer.answer;
  const title = page.getByRole('heading', { name: /of machines keep every promise/ });
  assert.equal((await title.innerText()).replace(/\s+/g, ' ').trim(),
    `${percent(share)} % of machines keep every promise (${percent(low)} … ${percent(high)} %, 95 % sure)`);
  await page.getByText(`poise spread stand.toml --sample ${answer.worst.machine}`).waitFor();

  const rows = page.getByRole('article');
  assert.equal(await rows.count(), answer.promises.length);
  const first = region(page, 'seated before any clamp moves');
  assert.equal(await rows.first().getAttribute('aria-label'), 'seated before any clamp moves', 'broken most often, so first');
  const [promise] = answer.promises;
  assert.ok(promise.broken > 0);
  const picture = first.getByRole('img', { name: /^Room left at seated before any clamp moves: / });
  assert.match(await picture.getAttribute('aria-label'), new RegExp(`; ${promise.broken} of 1,000 left of 0, broken$`));
  await picture.getByText('broken', { exact: true }).waitFor();
  const drivers = first.getByRole('list').first().getByRole('listitem');
  assert.equal(await drivers.count(), 4);
  assert.match((await drivers.first().innerText()).replace(/\s+/g, ' '), /^V2 setting 61 % a higher value gives room$/);
  await first.getByRole('button', { name: /^All 6/ }).click();
  assert.equal(await drivers.count(), 6);
  await first.getByText('Inside').waitFor();
  await first.getByText(`machine ${promise.worst.machine}: ${promise.worst.text}`).waitFor();

  // Where every machine keeps it, nothing is called broken.
  const kept = region(page, 'pump line below 225 bar');
  await kept.getByText('None of 1,000 breaks it').waitFor();
  assert.equal(await kept.getByRole('img').getByText('broken', { exact: true }).count(), 0);

  await page.getByText('6 tolerances taken').click();
  const table = page.getByRole('table', { name: 'The tolerances taken' });
  await table.getByRole('row', { name: /^P1 .*4\.00 L\/min 3\.60 L\/min 4\.08 L\/min the parts list$/ }).waitFor();
  await table.getByRole('link', { name: /^V2 in the circuit/ }).click();
  await panelOf(page, 'V2');
});

story('bars left of 0 are hatched, those right of it are not, and none crosses it', stand, async ({ page }) => {
  const answer = spreadOf(1000, 1000);
  await standIn(page, () => ({ answer }));
  await goTo(page, 'Spread');
  const picture = region(page, 'seated before any clamp moves').getByRole('img');
  const { zero, bars } = await picture.evaluate((svg) => ({
    zero: Number(/^M([\d.]+) /.exec(svg.querySelector('.zero').getAttribute('d'))[1]),
    bars: [...svg.querySelectorAll('rect.held, rect.broken')].map((bar) => ({
      from: Number(bar.getAttribute('x')),
      to: Number(bar.getAttribute('x')) + Number(bar.getAttribute('width')),
      hatched: (bar.getAttribute('fill') ?? '').startsWith('url('),
    })),
  }));
  assert.ok(bars.some((bar) => bar.hatched) && bars.some((bar) => !bar.hatched));
  for (const { from, to, hatched } of bars) assert.ok(hatched ? to <= zero + 1e-6 : from >= zero - 1e-6, `${from} to ${to} at 0 = ${zero}`);
});

story('an answer about an earlier text says so and takes no mark or colour of an answer', stand, async ({ page }) => {
  const wishes = await standIn(page, () => ({ answer: spreadOf(1000, 1000), of_this_text: false }));
  await goTo(page, 'Spread');
  await page.getByText(/^The job has changed since: .* Begin anew to see how it is now\.$/s).waitFor();
  assert.equal(await page.locator('main [data-outcome=broken], main [data-outcome=held]').count(), 0);
  await button(page, 'Begin anew').click();
  await eventually(() => assert.equal(wishes.at(-1)?.what, 'begin'));
});

story('a wish that is refused and a study that ended badly are told', stand, async ({ page }) => {
  await standIn(page, () => ({ trouble: 'stand.studies cannot be written: the disk is full' }));
  await page.route(/\/study$/, (route) => route.fulfill({ status: 422, json: { sentence: 'The job cannot be run yet: 1 thing to mend' } }));
  await goTo(page, 'Spread');
  await page.getByRole('alert').getByText('the disk is full').or(page.getByText('the disk is full')).first().waitFor();
  await button(page, 'Begin').click();
  await page.getByText('The job cannot be run yet: 1 thing to mend').waitFor();
});

story('faults stand worst first, are filtered by part and severity, and a click tells what came of one', stand, async ({ page }) => {
  const answer = faultsOf(21);
  await standIn(page, () => ({ answer }));
  await goTo(page, 'Faults');
  await page.getByRole('heading', { name: '9 faults of 21 can hurt someone; nothing shows 3 of them' }).waitFor();
  const table = page.getByRole('table', { name: /^Worst first/ });
  const severities = async () => (await table.locator('td.severity').allInnerTexts()).map((text) => text.trim());
  const order = ['can hurt someone', 'can damage', 'works badly', 'not proven', 'nothing breaks'];
  const found = await severities();
  assert.equal(found.length, 21);
  assert.deepEqual(found, [...found].sort((a, b) => order.indexOf(a) - order.indexOf(b)));

  await page.getByRole('combobox', { name: 'Severity' }).selectOption('can damage');
  assert.deepEqual(await severities(), ['can damage', 'can damage', 'can damage']);
  await page.getByText('3 of 21 shown').waitFor();
  await page.getByRole('combobox', { name: 'Part' }).selectOption('V2');
  await page.getByText('No fault is of this part and severity.').waitFor();
  await page.getByRole('combobox', { name: 'Severity' }).selectOption('');
  assert.equal((await severities()).length, 3);

  const spring = table.getByRole('button', { name: 'spring relaxed, V2' }).first();
  await tabTo(page, spring);
  await press(page, 'Enter');
  assert.equal(await spring.getAttribute('aria-expanded'), 'true');
  const grave = table.getByRole('region', { name: 'grave, V2 spring relaxed' });
  await grave.getByText('seated before any clamp moves: missed by 3.20 bar').waitFor();
  await press(page, 'Enter');
  await grave.waitFor({ state: 'detached' });
  await focusIsSeen(page, 'closing a fault');
  await table.getByRole('link', { name: /^V2 in the circuit/ }).first().click();
  await panelOf(page, 'V2');
});

story('what a study tells is asked for in the units shown', stand, async ({ page }) => {
  const asked = [];
  page.on('request', (request) => {
    if (request.url().includes('/study?')) asked.push(new URL(request.url()).searchParams.get('units'));
  });
  await standIn(page, () => ({ answer: spreadOf(1000, 1000) }));
  await verdictReads(page, /^Held\./);
  await goTo(page, 'Spread');
  await eventually(() => assert.equal(asked.at(-1), 'metric'));
  await button(page, 'psi').click();
  await eventually(() => assert.equal(asked.at(-1), 'us'));
});
