// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A job whose run takes long: how far it is is seen, it can be stopped, and the page stays at hand meanwhile.
import assert from 'node:assert/strict';
import { button, choose, fill, goTo, panelOf, selectPart, verdictReads } from './support/person.mjs';
import { eventually, story } from './support/story.mjs';

const strokes = Array.from({ length: 60 }, (_, i) => `[[steps]]
name = "up ${i}"
set = { V2 = "shifted" }
lasts = "2 s"

[[steps]]
name = "down ${i}"
set = { V2 = "rest" }
lasts = "2 s"
`).join('\n');

/** A cylinder at the end of a long hose that is worked out in 50 pieces with the inertia of its oil, up and down again and again. Invented. */
const longHose = `title = "Lift at the end of a long hose"   # 60 m across the yard

[parts.T1]
kind = "reservoir"
usable_oil = "20 L"

[parts.P1]
kind = "pump"
flow = "6 L/min"
rated_pressure = "350 bar"

[parts.V1]
kind = "relief"
setting = "180 bar"
rated_flow = "20 L/min"

[parts.V2]
kind = "directional_3_2"
rated_flow = "20 L/min"

[parts.C1]
kind = "single_acting_cylinder"
bore = "50 mm"
rod = "40 mm"
stroke = "300 mm"
rated_pressure = "250 bar"

[parts.M1]
kind = "mass"
mass = "3 t"

[[lines]]
from = "T1.T"
to = ["P1.S", "V1.T", "V2.T"]

[[lines]]
from = "P1.P"
to = ["V1.P", "V2.P"]

[[lines]]
from = "V2.A"
to = "C1.A"
tag = "H1"
hose = { bore = "10 mm", length = "60 m", segments = 50, inertia = "yes" }

[[lines]]
from = "C1.rod"
to = "M1.rod"

[[steps]]
name = "start"
set = { P1 = "on" }
lasts = "1 s"

${strokes}
[[require]]
name = "hose spared"
never_above = "C1.pressure"
limit = "200 bar"
`;

story('a long run shows how far it is, is stopped, and the page stays at hand', { jobs: { 'hose.toml': longHose }, first: 'hose.toml' }, async ({ page, read }) => {
  const bar = page.getByRole('progressbar', { name: 'Run of the cycle' });
  await bar.waitFor();
  await page.getByText(/^\d+ %/).waitFor();

  // Meanwhile the rooms are there, and a part's panel opens.
  await goTo(page, 'Circuit');
  await page.getByRole('img', { name: /^Circuit diagram/ }).waitFor();
  await page.getByRole('option', { name: /^V1 / }).click();
  await panelOf(page, 'V1');
  assert.equal(await bar.count(), 1, 'it still runs');

  await button(page, 'Stop').click();
  await verdictReads(page, /^Not proven: stopped by hand at /);
  await bar.waitFor({ state: 'detached' });

  // It can be run again; a change meanwhile stops that run and begins another.
  await button(page, 'Run again').click();
  await bar.waitFor();
  await fill(page, 'Setting, V1', '185 bar');
  await eventually(async () => assert.match(await read('hose.toml'), /^setting = "185 bar"$/m));
  await bar.waitFor();
  await button(page, 'Stop').click();
  await verdictReads(page, /^Not proven: stopped by hand at /);

  // With the hose in one piece it comes to its end.
  await goTo(page, 'Circuit');
  await selectPart(page, 'H1');
  await fill(page, 'Segments, H1', '1');
  await choose(page, 'Inertia, H1', 'no');
  await verdictReads(page, /^Held\. Least room: /);
});

story('a run that nobody waits for any more is stopped: a trial that is given up, a job that is left', { jobs: { 'hose.toml': longHose }, first: 'hose.toml', hash: '#job=hose.toml&room=knobs' }, async ({ page, address }) => {
  const runs = (tab) => page.evaluate(async (asked) => (await (await fetch(asked)).json()).running, `${address}api/job/hose.toml/progress?tab=${tab}`);
  const asked = [];
  page.on('request', (request) => {
    if (request.url().includes('/prove')) asked.push(request.postDataJSON());
  });
  await page.reload();
  const slider = page.getByRole('slider', { name: 'setting of V1', exact: true });
  await slider.focus();
  await page.keyboard.down('ArrowLeft');
  const trial = await eventually(() => {
    const found = asked.find((each) => each.trial);
    assert.ok(found, 'the value is tried');
    return found.tab;
  });
  await eventually(async () => assert.equal(await runs(trial), true));
  await page.keyboard.press('Escape');
  await page.keyboard.up('ArrowLeft');
  await eventually(async () => assert.equal(await runs(trial), false, 'the trial is stopped'));
  assert.equal(await page.getByRole('progressbar', { name: 'Run on trial' }).count(), 0);

  const own = asked.findLast((each) => !each.trial).tab;
  assert.equal(await runs(own), true, 'the job itself is still being run');
  await page.getByRole('link', { name: /^Poise/ }).click();
  await page.getByRole('heading', { name: 'Jobs of this folder' }).waitFor();
  await eventually(async () => assert.equal(await runs(own), false, 'the job that was left is no longer run'));
});
