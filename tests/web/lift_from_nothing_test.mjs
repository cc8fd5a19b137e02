// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A lift for one axle, made with nothing but the page: from a title to a held verdict. All data invented.
import assert from 'node:assert/strict';
import {
  addEntry, atPort, button, choose, entry, fill, goTo, join, link, listOfParts, panelOf, pickKind, pointAtLine, saved, selectPart, verdictReads,
} from './support/person.mjs';
import { eventually, story } from './support/story.mjs';

const file = 'axle-lift.toml';

async function beginEmpty(page) {
  await page.getByRole('radio', { name: /^New job/ }).check();
  await page.getByRole('textbox', { name: 'Title' }).fill('Axle lift');
  await button(page, `Make ${file}`).click();
  await page.getByRole('heading', { name: 'No parts yet' }).waitFor();
}

/** Power unit, valve, speed control, held cylinder with its load. */
async function drawCircuit(page) {
  await button(page, 'Begin with a power unit').click();
  await panelOf(page, 'P1');
  await button(page, 'V1.P').click(); // the line that the pump's outlet is joined to
  await button(page, 'Branch a part off this line').click();
  await pickKind(page, 'four ports three positions', 'Directional 4/3');
  await panelOf(page, 'V2');
  await choose(page, 'Centre, V2', 'open'); // both work lines to tank: the check shuts
  await atPort(page, 'New part', 'V2.A').click();
  await pickKind(page, 'one way flow', 'One way flow control');
  await panelOf(page, 'N1');
  await fill(page, 'Turns, N1', '2 turns');
  await atPort(page, 'New part', 'N1.B').click();
  await pickKind(page, 'holds a load', 'Pilot operated check');
  await panelOf(page, 'V3');
  await join(page, 'V3.X', 'V2.B');
  await atPort(page, 'New part', 'V3.B').click();
  await pickKind(page, 'single acting', 'Single acting cylinder');
  await panelOf(page, 'C1');
  await atPort(page, 'New part', 'C1.rod').click();
  await pickKind(page, 'mass', 'Mass');
  await panelOf(page, 'M1');
}

/** A gauge put on by pointing at the drawing; a screw to let the load down by hand, at first with its outlet plugged. */
async function addAtTheDrawing(page) {
  await pointAtLine(page, 'C1.A');
  const menu = page.getByRole('dialog', { name: 'Line' });
  await menu.getByRole('button', { name: 'Branch a part off this line' }).click();
  await pickKind(page, 'gauge', 'Gauge');
  await panelOf(page, 'G1');
  await (await listOfParts(page)).getByRole('option', { name: /^V3\.B to C1\.A, G1\.M/ }).click();
  await button(page, 'Branch a part off this line').click();
  await pickKind(page, 'shut off', 'Shut off');
  await panelOf(page, 'V4');
  await atPort(page, 'Plug', 'V4.B').click();
  await atPort(page, 'Take (the )?plug out', 'V4.B').click();
  await join(page, 'V4.B', 'T1.T');
  assert.equal(await page.getByText('still to be joined').count(), 0, 'no port is left open');
}

async function untilPosition(page, step, compares, value, most) {
  await entry(page, /^Steps/, step).getByRole('combobox', { name: /^Ends/ }).selectOption('when a condition holds');
  await fill(page, `Signal, until of step “${step}”`, 'C1.position');
  // What stood there was a pressure: the complaint is seen beside the field until the value is a length as well.
  await entry(page, /^Steps/, step).getByText(/expected a length/).waitFor();
  await choose(page, `How it compares, until of step “${step}”`, compares);
  await fill(page, `Value, until of step “${step}”`, value);
  await entry(page, /^Steps/, step).getByText(/expected a length/).waitFor({ state: 'detached' });
  await fill(page, `Waits at most, ${step}`, most);
}
async function sets(page, step, thing, value) {
  await page.getByRole('combobox', { name: `Set one thing more in step “${step}”` }).selectOption(thing);
  await choose(page, `${thing}, set by step “${step}”`, value);
}
async function addSteps(page) {
  await goTo(page, 'Job');
  await addEntry(page, 'step', 'start');
  await sets(page, 'start', 'P1', 'on');
  await addEntry(page, 'step', 'up');
  await untilPosition(page, 'up', 'above', '90 mm', '15 s');
  await sets(page, 'up', 'V2', 'a');
  await addEntry(page, 'step', 'hold');
  await fill(page, 'Lasts, hold', '5 s');
  await sets(page, 'hold', 'V2', 'centre');
  await addEntry(page, 'step', 'down');
  await untilPosition(page, 'down', 'below', '2 mm', '40 s');
  await sets(page, 'down', 'V2', 'b');
}

async function addRequirements(page) {
  await addEntry(page, 'requirement', 'cylinder below 210 bar');
  assert.equal(await page.getByLabel('Limit, cylinder below 210 bar').inputValue(), '210 bar');
  await addEntry(page, 'requirement', 'stays where it is left');
  await entry(page, /^Requirements/, 'stays where it is left').getByRole('combobox', { name: /^Promise/ }).selectOption('stays where it is');
  await fill(page, 'Signal, stays where it is left', 'C1.position');
  await fill(page, 'Changes at most, stays where it is left', '0.5 mm');
  await fill(page, 'Counts from, stays where it is left', '1 s');
  await entry(page, /^Requirements/, 'stays where it is left').getByRole('checkbox', { name: 'hold' }).check();
  await saved(page);
}

async function layHose(page, line, from, to) {
  await (await listOfParts(page)).getByRole('option', { name: line }).click();
  await page.getByRole('button', { name: new RegExp(`^Lay ${from} to ${to} as (a )?hose$`) }).click();
  await page.getByRole('article', { name: /Hose/ }).waitFor();
}

story('from an empty job to a lift that is held', {}, async ({ page, read }) => {
  await beginEmpty(page);
  await verdictReads(page, /^Cannot run/);
  await drawCircuit(page);
  await addAtTheDrawing(page);

  // Nothing moves without steps, and the page says so in the line that is always seen.
  await verdictReads(page, /^Cannot run: 1 thing to mend/);
  await addSteps(page);
  await addRequirements(page);

  // The screw to let down by hand was left open: the pump's oil goes through it, and the cycle shows how.
  await verdictReads(page, /^Broken: .*waited 15\.0 s for C1\.position above 90 mm/);
  await page.getByRole('region', { name: 'Verdict', exact: true }).getByRole('link', { name: /^moment/ }).click();
  await page.getByRole('slider', { name: 'Moment' }).waitFor();
  await page.getByRole('img', { name: /^Circuit at 16\.0 s, step up/ }).waitFor();
  await goTo(page, 'Circuit');
  const screw = await selectPart(page, 'V4');
  await screw.getByText(/further values/).click();
  await choose(page, 'Position, V4', 'shut');

  // Now stiff short lines take a blow as the valve shifts; hoses, as there would be, take it up.
  await verdictReads(page, /^Broken: no part above its rated pressure, P1\.P \d+ bar of 250 bar/);
  await layHose(page, /^V2\.B to V3\.X/, 'V3.X', 'V2.B');
  await layHose(page, /^V2\.A to N1\.A/, 'V2.A', 'N1.A');
  await verdictReads(page, /^Held\. Least room: /);

  await goTo(page, 'Verdict');
  const asked = page.getByRole('table', { name: /^All 4 hold/ });
  for (const name of ['cylinder below 210 bar', 'stays where it is left', 'every step comes to its end']) {
    await asked.getByRole('row', { name: new RegExp(`^held ${name}`) }).waitFor();
  }
  await eventually(async () => {
    const text = await read(file);
    assert.match(text, /^title = "Axle lift"$/m);
    assert.match(text, /\[parts\.V3\]\nkind = "pilot_operated_check"/);
    assert.match(text, /from = "V2\.A"\nto = "N1\.A"\ntag = "H2"\nhose = \{/);
    assert.match(text, /name = "up"\n(.*\n)*?until = "C1\.position > 90 mm"/);
    assert.match(text, /name = "stays where it is left"\n(.*\n)*?drift = "C1\.position"/);
    assert.doesNotMatch(text, /plugged/, 'the plug was taken out again');
  });
  assert.equal(await link(page, 'P1 in the circuit, for no part above its rated pressure').count(), 1);
});
