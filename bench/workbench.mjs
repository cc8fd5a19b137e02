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

/** Takes hold of a slider with the mouse, drags it by a few steps as a hand does, and lets it go. */
async function turn(page, slider, way) {
  await slider.scrollIntoViewIfNeeded();
  const box = await slider.boundingBox();
  const at = await slider.evaluate((node) => (node.valueAsNumber - node.min) / (node.max - node.min));
  const y = box.y + box.height / 2;
  const x = box.x + 8 + at * (box.width - 16);
  await page.evaluate(() => {
    performance.clearMarks();
    window.letGo = 0;
    addEventListener('pointerup', (event) => (window.letGo = event.timeStamp), { capture: true, once: true });
  });
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 6; ++i) await page.mouse.move(x + way * i * 2, y);
  await page.mouse.up();
  await page.waitForFunction(() => {
    const [released] = performance.getEntriesByName('poise:release').slice(-1);
    const [drawn] = performance.getEntriesByName('poise:drawn').slice(-1);
    return released && drawn && drawn.startTime >= released.startTime;
  });
  const { mark, hand } = await page.evaluate(() => {
    const last = (name) => performance.getEntriesByName(name).slice(-1)[0].startTime;
    return { mark: last('poise:drawn') - last('poise:release'), hand: last('poise:drawn') - window.letGo };
  });
  // The next knob is taken once the file is written and the run of the saved job is back.
  await page.getByRole('banner').getByText('saved', { exact: true }).waitFor();
  await page.getByText('saving', { exact: true }).waitFor({ state: 'detached' });
  return { mark, hand };
}

async function turnKnobs(browser, address) {
  const page = await (await browser.newContext({ viewport: size })).newPage();
  await page.goto(`${address}#job=stand.toml&room=knobs`);
  const sliders = page.getByRole('region', { name: 'Knobs' }).getByRole('slider', { name: / of / });
  await sliders.first().waitFor();
  await page.getByText(/Held\. Least room/).first().waitFor();
  const names = await sliders.evaluateAll((nodes) => nodes.map((node) => node.getAttribute('aria-label')));
  const found = [];
  for (let i = 0; i < releases; ++i) {
    const name = names[(i * 7) % names.length];
    const slider = page.getByRole('slider', { name, exact: true });
    found.push(await turn(page, slider, i % 2 === 0 ? 1 : -1));
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
  row('knob: poise:release to poise:drawn', turned.map((each) => each.mark));
  row('page: first contentful paint', opened.map((each) => each.paint), 'within 1 s');
  row('page: verdict on the screen', opened.map((each) => each.verdict));
  row('poise prove, a program of its own', [...alone, ...after]);
  console.log(`\npage on the wire: ${(opened[0].weight / 1000).toFixed(1)} kB (within 300 kB)`);
} finally {
  await browser.close();
  await folder.end();
}
