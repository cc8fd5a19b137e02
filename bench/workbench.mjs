// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// How long the workbench lets people wait, in a real browser on the drilling stand: from letting a knob go to the new
// curves on the screen, from opening the page to its first ink and to its verdict, and what the page weighs; beside it
// what `poise prove` takes for the same job on the same machine.
//   POISE_PROGRAM=build/release/poise node bench/workbench.mjs [releases]
import { execFileSync } from 'node:child_process';
import { performance } from 'node:perf_hooks';
import { openBrowser } from '../tests/web/support/browser.mjs';
import { job, openFolder, program } from '../tests/web/support/program.mjs';

const releases = Number(process.argv[2] ?? 40);
const opens = 7;
const patience = 120_000; // milliseconds, after which something hangs
const size = { width: 1440, height: 900 };

const sorted = (values) => [...values].sort((a, b) => a - b);
/** The smallest value that this share of all values does not exceed. */
const share = (values, part) => sorted(values)[Math.max(0, Math.ceil(part * values.length) - 1)];
const row = (name, values, limit = '') => {
  const figures = [share(values, 0.5), share(values, 0.95), Math.max(...values)].map((each) => `${each.toFixed(0)} ms`.padStart(9));
  console.log(`${name.padEnd(46)}${String(values.length).padStart(4)}${figures.join('')}   ${limit}`);
};

/** Seconds of the clock that `poise prove` takes as a program of its own. */
function proveAlone() {
  const begun = performance.now();
  execFileSync(program, ['prove', job('drilling-stand.toml')], { stdio: 'ignore' });
  return performance.now() - begun;
}

/** A fresh browser profile each time: nothing is cached. */
async function openOnce(browser, address) {
  const context = await browser.newContext({ viewport: size });
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  let weight = 0;
  const sizes = [];
  page.on('requestfinished', (request) => {
    if (!request.url().startsWith(`${address}api/`)) sizes.push(request.sizes());
  });
  await page.addInitScript(() => {
    // The moment at which the verdict is first on the screen.
    const look = () => {
      const line = document.querySelector('[aria-label="Verdict"] [role="status"]')?.textContent ?? '';
      if (/Held|Broken/.test(line)) requestAnimationFrame(() => performance.mark('bench:verdict'));
      else requestAnimationFrame(look);
    };
    look();
  });
  await page.goto(address);
  await page.waitForFunction(() => performance.getEntriesByName('bench:verdict').length > 0);
  const [paint, verdict] = await page.evaluate(() => [
    performance.getEntriesByName('first-contentful-paint')[0].startTime,
    performance.getEntriesByName('bench:verdict')[0].startTime,
  ]);
  for (const { responseBodySize, responseHeadersSize } of await Promise.all(sizes)) weight += responseBodySize + responseHeadersSize;
  await context.close();
  return { paint, verdict, weight };
}

/** Pictures of all charts as they are at the moment of the next `poise:drawn`, and a mark once that frame has been shown. */
const watchMarks = () => {
  const charts = () => [...document.querySelectorAll('canvas')].map((canvas) => canvas.toDataURL()).join();
  window.lookAtCharts = (wanted) => {
    window.before = wanted ? charts() : '';
    window.changed = null;
    new PerformanceObserver((list, observer) => {
      if (list.getEntriesByName('poise:drawn').length === 0) return;
      observer.disconnect();
      if (wanted) window.changed = charts() !== window.before;
      requestAnimationFrame(() => performance.mark('bench:shown'));
    }).observe({ type: 'mark' });
  };
};

/** Whether the marks mean what they say: a typed value's curves are on the charts when `poise:drawn` is set. */
async function checkMarks(page) {
  const field = page.getByRole('textbox', { name: /^V3 Setting/ }).first();
  await page.evaluate(() => window.lookAtCharts(true));
  await field.fill('160 bar');
  await field.press('Enter');
  await page.waitForFunction(() => window.changed !== null);
  if (!(await page.evaluate(() => window.changed))) throw new Error('poise:drawn is set before the charts have changed');
  await page.getByText('saving', { exact: true }).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: /^Undo: / }).click();
  await page.getByRole('button', { name: 'Nothing to undo' }).waitFor();
  await page.getByText(/Held\. Least room/).first().waitFor();
}

/** Takes hold of a slider with the mouse, drags it by a few steps as a hand does, and lets it go. */
async function turn(page, slider, way) {
  await slider.scrollIntoViewIfNeeded();
  const box = await slider.boundingBox();
  const at = await slider.evaluate((node) => (node.valueAsNumber - node.min) / (node.max - node.min));
  const y = box.y + box.height / 2;
  const x = box.x + 8 + at * (box.width - 16);
  await page.evaluate(() => {
    performance.clearMarks();
    window.lookAtCharts(false);
    window.letGo = 0;
    addEventListener('pointerup', (event) => (window.letGo = event.timeStamp), { capture: true, once: true });
  });
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 6; ++i) await page.mouse.move(x + way * i * 2, y);
  await page.mouse.up();
  await page.waitForFunction(() => performance.getEntriesByName('bench:shown').length > 0);
  const { mark, hand, shown } = await page.evaluate(() => {
    const last = (name) => performance.getEntriesByName(name).slice(-1)[0].startTime;
    return {
      mark: last('poise:drawn') - last('poise:release'),
      hand: last('poise:drawn') - window.letGo,
      shown: last('bench:shown') - window.letGo,
    };
  });
  // The next knob is taken on the stand as it was: once the file is written, undone, and the run of it is back.
  await page.getByText('saving', { exact: true }).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: /^Undo: / }).click();
  await page.getByRole('button', { name: 'Nothing to undo' }).waitFor();
  await page.getByText('running …').waitFor({ state: 'detached' });
  await page.getByText(/Held\. Least room/).first().waitFor();
  return { mark, hand, shown };
}

async function turnKnobs(browser, address) {
  const context = await browser.newContext({ viewport: size });
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  await page.goto(`${address}#job=stand.toml&room=knobs`);
  const sliders = page.getByRole('region', { name: 'Knobs' }).getByRole('slider', { name: / of / });
  await sliders.first().waitFor();
  await page.getByText(/Held\. Least room/).first().waitFor();
  await page.evaluate(watchMarks);
  await checkMarks(page);
  const names = await sliders.evaluateAll((nodes) => nodes.map((node) => node.getAttribute('aria-label')));
  const found = [];
  // What the program says of the runs on trial: milliseconds; null where a later one stopped it.
  const runs = [];
  page.on('response', (response) => {
    if (!response.url().endsWith('/prove') && !response.url().includes('/prove?')) return;
    if (!response.request().postDataJSON()?.trial) return;
    runs.push(response.status() === 200 ? response.json().then((answer) => answer.milliseconds, () => null) : null);
  });
  for (let i = 0; i < releases; ++i) {
    const name = names[(i * 7) % names.length];
    runs.length = 0;
    const slider = page.getByRole('slider', { name, exact: true });
    const times = await turn(page, slider, i % 2 === 0 ? 1 : -1);
    const trials = (await Promise.all(runs)).filter((each) => each !== null);
    found.push({ name, ...times, run: trials.at(-1) ?? 0, trials: trials.length });
  }
  return found;
}

const folder = await openFolder({ 'stand.toml': job('drilling-stand.toml') }, 'stand.toml');
const browser = await openBrowser();
try {
  const alone = Array.from({ length: opens }, proveAlone);
  const opened = [];
  for (let i = 0; i < opens; ++i) opened.push(await openOnce(browser, folder.address));
  const turned = await turnKnobs(browser, folder.address);
  const after = Array.from({ length: opens }, proveAlone);
  console.log(`drilling stand, ${size.width} by ${size.height}, ${program}\n`);
  console.log(`${''.padEnd(46)}${'n'.padStart(4)}${['median', '95 %', 'worst'].map((each) => each.padStart(9)).join('')}`);
  row('knob: from the pointer up to the curves', turned.map((each) => each.hand), '95 % within 100 ms');
  row('knob: until the frame after that', turned.map((each) => each.shown));
  row('knob: poise:release to poise:drawn', turned.map((each) => each.mark));
  row('knob: of that the last run on trial itself', turned.map((each) => each.run));
  row('page: first contentful paint', opened.map((each) => each.paint), 'within 1 s');
  row('page: verdict on the screen', opened.map((each) => each.verdict));
  row('poise prove, a program of its own', [...alone, ...after]);
  console.log('\nslowest knobs:');
  for (const { name, hand, run, trials } of [...turned].sort((a, b) => b.hand - a.hand).slice(0, 5)) {
    console.log(`  ${name.padEnd(44)}${hand.toFixed(0).padStart(6)} ms, of that the run ${run.toFixed(0)} ms; ${trials} runs came back`);
  }
  console.log(`\npage on the wire: ${(opened[0].weight / 1000).toFixed(1)} kB (within 300 kB)`);
} finally {
  await browser.close();
  await folder.end();
}
