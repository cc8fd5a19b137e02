// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What a person does with the page and reads on it: by role and name, as a screen reader would find it.
import assert from 'node:assert/strict';
import { eventually } from './story.mjs';

const exact = true;

export const button = (page, name) => page.getByRole('button', { name, exact });
export const link = (page, name) => page.getByRole('link', { name, exact });

/** The line that is seen in every room. */
export const verdictLine = (page) => page.getByRole('region', { name: 'Verdict', exact }).getByRole('status');

/** Waits until the verdict's line reads so; no moment passes in which an older line would do. */
export async function verdictReads(page, pattern) {
  await eventually(async () => {
    const text = (await verdictLine(page).innerText()).trim();
    assert.match(text, pattern);
    assert.equal(await page.getByText('running …').count(), 0, 'a run is still under way');
  });
}

export const goTo = async (page, room) => {
  await page.getByRole('navigation', { name: 'Rooms of the job' }).getByRole('link', { name: room, exact }).click();
  await page.getByRole('heading', { name: room, level: 2, exact }).waitFor({ state: 'attached' });
};

/** Waits until the page says that the file is written. */
export const saved = (page) =>
  eventually(async () => assert.match(await page.getByRole('banner').getByRole('status').innerText(), /^(saved|changed on disk)/));

/** Types into a field and leaves it with Enter; the field then shows what was typed. */
export async function fill(page, name, text) {
  const field = page.getByLabel(name, { exact });
  await field.fill(text);
  await field.press('Enter');
  await saved(page);
}
export async function choose(page, name, option) {
  await page.getByRole('combobox', { name, exact }).selectOption(option);
  await saved(page);
}

/** In the dialog that offers kinds of parts: filters and takes the one of this title. */
export async function pickKind(page, words, title) {
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('searchbox', { name: 'Filter' }).fill(words);
  await dialog.locator('button', { has: page.getByText(title, { exact }) }).click();
  await dialog.waitFor({ state: 'detached' });
}

/** The panel about a selected part, once it is shown. */
export async function panelOf(page, tag) {
  const panel = page.getByRole('article', { name: new RegExp(`^${tag} `) });
  await panel.waitFor();
  return panel;
}

/** What can be done at a port, told by the first words of its button and the port. */
export const atPort = (page, words, port) =>
  page.getByRole('article').getByRole('button', { name: new RegExp(`^${words}\\b.*\\b${port.replace('.', '\\.')}\\b`) });

/** Joins a port to another by name. */
export async function join(page, port, other) {
  await atPort(page, 'Join', port).click();
  await choose(page, `Port to join ${port} to`, other);
  await button(page, 'Join').click();
  await atPort(page, 'Take', port).waitFor();
}

/** All parts and lines of the circuit as a list; from a part's panel the way back to it. */
export async function listOfParts(page) {
  const list = page.getByRole('listbox', { name: 'Parts and lines' });
  const back = page.getByRole('button', { name: /^All parts and lines/ });
  if (await back.isVisible()) await back.click();
  await list.waitFor();
  return list;
}
export async function selectPart(page, tag) {
  await (await listOfParts(page)).getByRole('option', { name: new RegExp(`^${tag} `) }).click();
  return panelOf(page, tag);
}

/** The entry of a list of the Job room (steps, requirements), by its heading. */
export const entry = (page, section, name) =>
  page.getByRole('region', { name: section }).getByRole('listitem').filter({ has: page.getByRole('heading', { name, exact }) });

/** Adds a step or requirement and gives it its name. */
export async function addEntry(page, word, name) {
  await button(page, `Add a ${word}`).click();
  const field = page.getByRole('textbox', { name: new RegExp(`^Name, ${word} \\d+$`) }).last();
  await eventually(async () => assert.equal(await field.evaluate((node) => node === document.activeElement), true, 'the new entry has the focus'));
  await page.keyboard.type(name);
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name, level: 4, exact }).waitFor();
  await saved(page);
}

/** Clicks the line of a port on the drawing halfway along its longest stroke, once it is seen there. */
export async function pointAtLine(page, port) {
  const group = page.locator(`g.line[data-name~="${port}"]`);
  const at = await eventually(async () => {
    const found = await group.evaluate((node) => {
      const strokes = [...node.querySelectorAll('path')].sort((a, b) => b.getTotalLength() - a.getTotalLength());
      const [longest] = strokes;
      const { x, y } = longest.getPointAtLength(longest.getTotalLength() / 2).matrixTransform(longest.getScreenCTM());
      return { x, y, seen: document.elementFromPoint(x, y)?.closest('g.line') === node };
    });
    assert.ok(found.seen, `the line of ${port} is seen on the drawing`);
    return found;
  });
  await page.mouse.click(at.x, at.y);
}
