// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What could not be written is said where it was typed, and the field shows what the file holds.
import assert from 'node:assert/strict';
import { entry, goTo, saved, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const stand = { jobs: { 'stand.toml': job('drilling-stand.toml') }, first: 'stand.toml', hash: '#job=stand.toml&room=circuit&part=V3' };
const why = 'refused by the test';
const writes = /\/(edit|circuit)\?/;
const refuse = (route) => route.fulfill({ status: 422, json: { sentence: why } });
const header = (page) => page.getByRole('banner').getByRole('status');

/** What stands beside a field that is described by it. */
async function beside(field) {
  const ids = (await field.getAttribute('aria-describedby')) ?? '';
  return field.evaluate((node, all) => all.split(' ').map((id) => document.getElementById(id)?.innerText ?? '').join('\n'), ids);
}

async function isRefused(page, field, typed, holds) {
  await eventually(async () => assert.match(await beside(field), new RegExp(`“${typed}” was not written: ${why}`)));
  assert.equal(await field.inputValue(), holds, 'the field shows what the file holds');
  assert.equal((await header(page).innerText()).trim(), 'last change not written');
  await page.getByRole('alert').getByText(why).waitFor();
}

story('a refused value is told at its field, which shows the value that holds', stand, async ({ page, read }) => {
  const before = await read('stand.toml');
  await verdictReads(page, /^Held\./);
  await page.route(writes, refuse);
  const setting = page.getByRole('textbox', { name: 'Setting, V3', exact: true });
  await setting.fill('209 bar');
  await setting.press('Enter');
  await isRefused(page, setting, '209 bar', '210 bar');

  const tag = page.getByRole('textbox', { name: 'Tag, V3', exact: true });
  await tag.fill('V33');
  await tag.press('Enter');
  await isRefused(page, tag, 'V33', 'V3');
  assert.equal(await beside(setting), '', 'only the last change is spoken of');

  await goTo(page, 'Job');
  const ends = page.getByRole('combobox', { name: /^Ends, / }).first();
  const how = await ends.inputValue();
  await ends.selectOption(how === 'time' ? 'condition' : 'time');
  await eventually(async () => assert.equal(await ends.inputValue(), how));

  await goTo(page, 'Knobs');
  const knob = page.getByRole('textbox', { name: /^V3 Setting(?! flow)/ });
  await knob.fill('205 bar');
  await knob.press('Enter');
  await page.getByText(`“205 bar” was not written: ${why}`).waitFor();
  assert.equal(await knob.inputValue(), '210 bar');
  assert.equal(await read('stand.toml'), before);

  // The next one that is written takes the word back.
  await page.unroute(writes);
  await knob.fill('205 bar');
  await knob.press('Enter');
  await saved(page);
  await eventually(async () => assert.match(await read('stand.toml'), /^setting = "205 bar"/m));
  assert.equal(await page.getByText(why).count(), 0);
});

story('a condition that is added to another stands beside it in the file', { ...stand, hash: '#job=stand.toml&room=job' }, async ({ page, read }) => {
  const first = entry(page, 'Requirements', 'seated before any clamp moves').getByRole('group', { name: 'First', exact: true });
  await first.getByRole('button', { name: 'Add a condition' }).click();
  await page.keyboard.type('P1.P.pressure');
  await page.keyboard.press('Tab');
  await saved(page);
  await eventually(async () => assert.match(await read('stand.toml'), /^first = \[.*"S2\.force > 10 kN", "P1\.P\.pressure >"\]$/m));
});
