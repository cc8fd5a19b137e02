// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The job's file in an editor beside the page: what is saved there is seen and can be undone; what is broken there is
// named and can be mended; what a person wrote between the lines stays.
import assert from 'node:assert/strict';
import { addEntry, button, choose, fill, goTo, panelOf, pickKind, saved, selectPart, verdictReads } from './support/person.mjs';
import { job } from './support/program.mjs';
import { eventually, story } from './support/story.mjs';

const stand = { jobs: { 'stand.toml': job('drilling-stand.toml') }, first: 'stand.toml' };
const at = (room) => ({ ...stand, hash: `#job=stand.toml&room=${room}` });
const fileIs = (read, text, why) => eventually(async () => assert.equal(await read('stand.toml'), text, why));

story('a change saved by an editor is taken over, and can be undone', at('circuit&part=V3'), async ({ page, read, write }) => {
  const before = await read('stand.toml');
  await verdictReads(page, /^Held\./);
  await write('stand.toml', before.replace('setting = "210 bar"', 'setting = "150 bar"'));
  await page.getByRole('banner').getByText('changed on disk').waitFor();
  const setting = page.getByRole('textbox', { name: 'Setting, V3', exact: true });
  await eventually(async () => assert.equal(await setting.inputValue(), '150 bar'));
  await verdictReads(page, /^Broken: /);
  await page.getByRole('button', { name: /^Undo: / }).click();
  await eventually(async () => assert.equal(await setting.inputValue(), '210 bar'));
  await fileIs(read, before, 'the file as it was before the editor');
  await verdictReads(page, /^Held\./);
});

story('a text that is broken on disk is named by its line and mended in the page', at('job'), async ({ page, read, write }) => {
  const before = await read('stand.toml');
  const broken = before.replace('[parts.V4]', '[parts.V4');
  const line = broken.slice(0, broken.indexOf('[parts.V4')).split('\n').length;
  await verdictReads(page, /^Held\./);
  await write('stand.toml', broken);
  await verdictReads(page, /^Cannot run: 1 thing to mend/);
  await page.getByRole('button', { name: /^Go there: / }).click();
  await page.getByRole('button', { name: `line ${line}`, exact: true }).waitFor();
  const area = page.getByRole('textbox', { name: 'Text of the job file' });
  await eventually(async () => {
    const chosen = await area.evaluate((node) => node === document.activeElement && node.value.slice(node.selectionStart, node.selectionEnd));
    assert.equal(chosen, '[parts.V4', 'the broken line is selected');
  });
  await page.keyboard.type('[parts.V4]');
  await button(page, 'Write the text').click();
  await verdictReads(page, /^Held\./);
  await fileIs(read, before);
});

/** Lines and ends of lines that only a person can have written. */
const remarks = (text) => text.split('\n').flatMap((line) => /#.*$/.exec(line)?.[0] ?? []);

story('remarks in the file outlive every kind of change', at('job'), async ({ page, read }) => {
  const before = await read('stand.toml');
  const kept = remarks(before);
  assert.ok(kept.length > 15);
  const writtenSince = async (pattern) => {
    await eventually(async () => assert.match(await read('stand.toml'), pattern));
    assert.deepEqual(remarks(await read('stand.toml')), kept);
  };
  await fill(page, 'Title', 'Stand in bay 4');
  await writtenSince(/^title = "Stand in bay 4"$/m);
  await addEntry(page, 'step', 'look');
  await button(page, 'Move step “look” up').click();
  await writtenSince(/name = "look"[^]*name = "release"/);
  await button(page, 'Remove step “look”').click();
  await button(page, 'Remove requirement “clamped in time”').click();
  await saved(page);
  assert.doesNotMatch(await read('stand.toml'), /name = "clamped in time"/);

  await goTo(page, 'Circuit');
  await selectPart(page, 'V1');
  await choose(page, 'Centre, V1', 'open');
  await writtenSince(/centre = "open"/);
  await selectPart(page, 'G1');
  await button(page, 'Replace …').click();
  await pickKind(page, 'pressure switch', 'Pressure switch');
  await page.getByRole('heading', { name: /^G1 Pressure switch/ }).waitFor();
  await writtenSince(/kind = "pressure_switch"/);
  await fill(page, 'Tag, G1', 'B1');
  await panelOf(page, 'B1');
  await writtenSince(/"B1\.\w+"/);
  await button(page, 'Remove').click();
  await writtenSince(/^(?![^]*"B1\.)/);

  await goTo(page, 'Knobs');
  await fill(page, 'V2 Setting lets the clamps come down when the rams are seated', '110 bar');
  await writtenSince(/^setting = "110 bar"$/m);

  // And back again, step by step, to the last blank.
  const undo = page.getByRole('button', { name: /^Undo: / });
  while ((await undo.count()) > 0) {
    await undo.click();
    await saved(page);
  }
  await button(page, 'Nothing to undo').waitFor();
  await fileIs(read, before);
});
