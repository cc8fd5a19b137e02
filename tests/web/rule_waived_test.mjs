// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A jack without a relief valve: the page says what can hurt someone, and lets a rule go only with a reason.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { button, goTo, saved, verdictReads } from './support/person.mjs';
import { eventually, story } from './support/story.mjs';

const jack = await readFile(new URL('../judge/jack-without-relief.toml', import.meta.url), 'utf8');

story('a rule that can hurt someone stands beside the answer, and is waived only with a reason', { jobs: { 'jack.toml': jack }, first: 'jack.toml' }, async ({ page, read }) => {
  await verdictReads(page, /^Held\. .*of the trade not kept that can hurt someone$/);
  await goTo(page, 'Verdict');
  const rule = page.getByRole('listitem').filter({ has: page.getByText('relief at every pump', { exact: true }) });
  await rule.getByText(/^P1 has no relief valve .* 250 bar/).waitFor();
  await rule.getByText('Put a relief valve at the outlet of P1', { exact: false }).waitFor();
  await page.getByRole('region', { name: 'People' }).getByText(/^Falling load: M1 weighs 800 kg/).waitFor();

  await rule.getByText('Why, and waive it').click();
  const waive = rule.getByRole('button', { name: 'Waive this rule' });
  const reason = rule.getByLabel('Why this may be, for verdict and papers');
  await reason.fill('ok');
  assert.equal(await waive.isDisabled(), true, 'a word is no reason');
  await reason.fill('Only on the open stand, with nobody near');
  await waive.click();
  await saved(page);
  await eventually(async () => assert.match(await read('jack.toml'), /\[\[waive\]\]\nrule = "relief at every pump"\npart = "P1"\nreason = "Only on the open stand, with nobody near"/));
  await rule.getByText('Waived: Only on the open stand, with nobody near').waitFor();

  await button(page, 'Withdraw the waiver of relief at every pump').click();
  await saved(page);
  await eventually(async () => assert.doesNotMatch(await read('jack.toml'), /waive/));
  await rule.getByText('Why, and waive it').waitFor();
});
