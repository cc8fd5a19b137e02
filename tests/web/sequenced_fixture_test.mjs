// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A fixture that seats, then clamps: begun from its starting point, broken by one knob, followed to where it broke, mended.
import assert from 'node:assert/strict';
import { button, goTo, panelOf, saved, verdictLine, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const file = 'sequenced-fixture.toml';
const settingOf = (text, tag) => new RegExp(`\\[parts\\.${tag}\\]\\n(?:(?!\\n\\[)[^])*?\\nsetting = "(.*?)"`).exec(text)?.[1];

/** Takes hold of a slider with the mouse and lets it go at its lower end. */
async function dragToItsLowEnd(page, name) {
  const slider = page.getByRole('slider', { name, exact: true });
  await slider.scrollIntoViewIfNeeded();
  const box = await slider.boundingBox();
  const share = await slider.evaluate((node) => (node.valueAsNumber - node.min) / (node.max - node.min));
  const y = box.y + box.height / 2;
  await page.mouse.move(box.x + 8 + share * (box.width - 16), y);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 4, y, { steps: 4 });
  await page.mouse.move(box.x - 20, y, { steps: 4 });
  await page.mouse.up();
}

story('a fixture from its starting point: a relief set too low breaks it, undoing mends it', {}, async ({ page, read }) => {
  await page.getByRole('radio', { name: /^Sequenced fixture/ }).check();
  await button(page, `Make ${file}`).click();
  await verdictReads(page, /^Held\. Least room: /);

  await goTo(page, 'Knobs');
  await dragToItsLowEnd(page, 'setting of V1');
  await saved(page);
  await verdictReads(page, /^Broken: clamped in time, /);
  await eventually(async () => assert.equal(settingOf(await read(file), 'V1'), '90 bar'));
  await page.getByText('V1 setting: 180 bar → 90 bar').waitFor();

  // Worst first, and each a way to its moment and part.
  await goTo(page, 'Verdict');
  const broken = page.getByRole('row', { name: /^broken clamped in time/ });
  const moment = broken.getByRole('link', { name: /the moment of clamped in time/ });
  const time = (await moment.innerText()).trim();
  await moment.click();
  await page.getByRole('img', { name: new RegExp(`^Circuit at ${String(Number.parseFloat(time)).replace('.', '\\.')}0* s`) }).waitFor();
  await page.goBack();
  await broken.getByRole('link', { name: /^K1 in the circuit/ }).click();
  await panelOf(page, 'K1');

  await button(page, 'Undo: setting of V1').click();
  await verdictReads(page, /^Held\. Least room: /);
  await eventually(async () => assert.equal(settingOf(await read(file), 'V1'), '180 bar'));
  await button(page, 'Redo: setting of V1').click();
  await verdictReads(page, /^Broken: clamped in time, /);
  await page.getByRole('button', { name: 'Undo: setting of V1' }).waitFor();
  await page.keyboard.press('Control+z');
  await verdictReads(page, /^Held\. Least room: /);

  // The same place, job and verdict after the page is loaded anew.
  const line = await verdictLine(page).innerText();
  await page.reload();
  await panelOf(page, 'K1');
  await page.getByRole('heading', { name: 'Sequenced fixture', level: 1 }).waitFor();
  await eventually(async () => assert.equal(await verdictLine(page).innerText(), line));
  await page.getByRole('button', { name: 'Redo: setting of V1' }).waitFor();
});

story(
  'a sequence valve set too low is named by the verdict, while it is tried and once it is kept',
  { jobs: { 'stand.toml': job('drilling-stand.toml') }, first: 'stand.toml' },
  async ({ page, read }) => {
    const before = await read('stand.toml');
    await verdictReads(page, /^Held\. Least room: /);
    await goTo(page, 'Knobs');
    const field = page.getByRole('textbox', { name: /^V2 Setting/ });

    // Tried by the arrow keys and taken back with Escape: nothing was written, and the line of the file still says held.
    const slider = page.getByRole('slider', { name: 'setting of V2', exact: true });
    await slider.focus();
    await page.keyboard.down('ArrowLeft');
    await page.keyboard.press('Escape');
    await page.keyboard.up('ArrowLeft');
    assert.equal(await field.inputValue(), '120 bar');
    assert.equal(await read('stand.toml'), before);

    await field.fill('50 bar');
    await field.press('Enter');
    await verdictReads(page, /^Broken: seated before any clamp moves, /);
    await page.getByRole('button', { name: 'Put back setting of V2 to 120 bar' }).click();
    await verdictReads(page, /^Held\. Least room: /);
    await eventually(async () => assert.equal(await read('stand.toml'), before, 'to the last blank and comment'));
  },
);
