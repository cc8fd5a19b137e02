// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Through all rooms without a mouse: a part chosen and changed, the cycle scrubbed and played, a knob turned, menus
// dismissed. The focus is always seen and never lost.
import assert from 'node:assert/strict';
import { focusIsSeen, press, tabTo } from './support/keys.mjs';
import { button, link, panelOf, saved, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const jobs = { 'stand.toml': job('drilling-stand.toml') };
const stand = (room) => ({ jobs, hash: `#job=stand.toml&room=${room}` });
const roomLink = (page, name) => page.getByRole('navigation', { name: 'Rooms of the job' }).getByRole('link', { name, exact: true });
const settled = (read, pattern) => eventually(async () => assert.match(await read('stand.toml'), pattern));

async function enterRoom(page, name) {
  await tabTo(page, roomLink(page, name));
  await press(page, 'Enter');
  await page.getByRole('heading', { name, level: 2, exact: true }).waitFor({ state: 'attached' });
  await focusIsSeen(page, `going to ${name}`);
}

story('from the start page into a job, and past the header into each room', { jobs }, async ({ page }) => {
  await page.getByRole('heading', { name: 'A new job' }).waitFor();
  await tabTo(page, page.getByRole('link', { name: /^Drilling stand for bogie frames/ }));
  await press(page, 'Enter');
  await verdictReads(page, /^Held\./);
  await focusIsSeen(page, 'opening a job');
  for (const room of ['Job', 'Circuit', 'Cycle', 'Knobs', 'Verdict']) await enterRoom(page, room);
  await tabTo(page, link(page, 'To the room'), true);
  await press(page, 'Enter');
  assert.equal(await page.evaluate(() => document.activeElement.id), 'room');
});

story('a part is chosen, changed and left again', stand('circuit'), async ({ page, read }) => {
  await verdictReads(page, /^Held\./);
  const list = page.getByRole('listbox', { name: 'Parts and lines' });
  await tabTo(page, list);
  await press(page, 'ArrowDown', 'ArrowDown', 'v', '3', 'Enter');
  await panelOf(page, 'V3');
  await eventually(async () => assert.equal(await page.evaluate(() => document.activeElement.id), 'part-heading'));

  // A chooser that is dismissed gives the focus back to what opened it.
  await tabTo(page, button(page, 'Replace …'));
  await press(page, 'Enter');
  await page.getByRole('dialog').waitFor();
  await press(page, 'ArrowDown', 'ArrowDown', 'Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await focusIsSeen(page, 'dismissing the chooser');

  const setting = page.getByRole('textbox', { name: 'Setting, V3', exact: true });
  await tabTo(page, setting);
  await page.keyboard.press('Control+a');
  await page.keyboard.type('100 bar');
  await press(page, 'Escape'); // as it was
  assert.equal(await setting.inputValue(), '210 bar');
  await tabTo(page, setting);
  await page.keyboard.press('Control+a');
  await page.keyboard.type('215 bar');
  await press(page, 'Enter');
  await settled(read, /^setting = "215 bar"$/m);
  await focusIsSeen(page, 'writing a value');

  // Back to the list, on to a line, and back from there with Escape.
  await tabTo(page, page.getByRole('button', { name: /^All parts and lines/ }), true);
  await press(page, 'Enter');
  await eventually(async () => assert.ok(await list.evaluate((node) => node === document.activeElement), 'the list has the focus'));
  await press(page, 'End', 'Enter');
  await page.getByRole('article').waitFor();
  await tabTo(page, page.getByRole('button', { name: /^(Fix a part|Branch a part)/ }).first());
  await press(page, 'Enter');
  await page.getByRole('dialog').waitFor();
  await press(page, 'Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await focusIsSeen(page, 'dismissing the chooser');

  await press(page, 'Control+z');
  await settled(read, /^setting = "210 bar"$/m);
  await focusIsSeen(page, 'undoing');
});

story('entries of the job are added, moved and removed', stand('job'), async ({ page, read }) => {
  await verdictReads(page, /^Held\./);
  await tabTo(page, button(page, 'Add a step'));
  await press(page, 'Enter');
  await eventually(async () => assert.match(await page.evaluate(() => document.activeElement.getAttribute('aria-label') ?? ''), /^Name, step 5/));
  await page.keyboard.type('look');
  await press(page, 'Enter');
  await settled(read, /^name = "look"$/m);
  await tabTo(page, button(page, 'Move step “look” up'), true);
  await press(page, 'Enter');
  await settled(read, /name = "look"[^]*name = "release"/);
  await saved(page);
  await focusIsSeen(page, 'moving a step');
  await tabTo(page, button(page, 'Remove step “look”'));
  await press(page, 'Enter');
  await settled(read, /^(?![^]*name = "look")/);
  await saved(page);
  await focusIsSeen(page, 'removing a step');
});

story('the cycle is scrubbed and played', stand('cycle'), async ({ page }) => {
  const moment = page.getByRole('slider', { name: 'Moment' });
  await tabTo(page, moment);
  const now = async () => Number(await moment.getAttribute('aria-valuenow'));
  await press(page, 'ArrowRight', 'ArrowRight', 'ArrowRight');
  const third = await now();
  assert.ok(third > 0);
  await press(page, 'ArrowLeft');
  assert.ok((await now()) < third);
  await press(page, 'End');
  assert.equal(String(await now()), await moment.getAttribute('aria-valuemax'));
  await press(page, 'PageDown');
  await page.getByRole('img', { name: /^Circuit at 7\.00 s/ }).waitFor();
  await press(page, 'Home');
  assert.equal(await now(), 0);
  await tabTo(page, page.getByRole('button', { name: 'Play', exact: true }), true);
  await press(page, 'Enter');
  await eventually(async () => assert.ok((await now()) > 0, 'time goes on'));
  await page.getByRole('button', { name: 'Pause', exact: true }).waitFor();
  await press(page, 'Enter');
  await page.getByRole('button', { name: 'Play', exact: true }).waitFor();
  const stood = await now();
  await focusIsSeen(page, 'pausing');
  assert.equal(await now(), stood);
});

story('a knob is turned, taken back and kept', stand('knobs'), async ({ page, read }) => {
  await verdictReads(page, /^Held\./);
  const before = await read('stand.toml');
  const slider = page.getByRole('slider', { name: 'setting of V3', exact: true });
  await tabTo(page, slider);
  await page.keyboard.down('ArrowRight'); // written only once it is up
  await press(page, 'Escape');
  await page.keyboard.up('ArrowRight');
  assert.equal(await slider.getAttribute('aria-valuetext'), '210 bar');
  assert.equal(await read('stand.toml'), before);
  await press(page, 'ArrowRight');
  const turned = await slider.getAttribute('aria-valuetext');
  assert.notEqual(turned, '210 bar');
  await settled(read, new RegExp(`^setting = "${turned}"$`, 'm'));
  await focusIsSeen(page, 'keeping a knob');
  assert.ok(await slider.evaluate((node) => node === document.activeElement), 'the hand stays on the knob');
});
