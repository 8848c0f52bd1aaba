import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { LAPTOP, PHONE, useSite } from './site';

const site = useSite();

const dialog = (page: Page): Locator => page.getByRole('dialog', { name: 'Readings' });
const part = (page: Page, name: string): Locator => dialog(page).getByRole('region', { name, exact: true });
const entry = (page: Page, title: string): Locator =>
  dialog(page).locator('.list .entry').filter({ hasText: title });
/** Words as they are read, those inside elements of our own included: one space for every space. */
const words = (locator: Locator): Promise<string> =>
  locator.evaluate((element) => {
    const said = (node: Node): string => {
      if (node instanceof HTMLSlotElement) return node.assignedNodes().map(said).join('');
      if (node instanceof Text) return node.data;
      if (node instanceof HTMLStyleElement) return '';
      const inside = node instanceof Element && node.shadowRoot ? node.shadowRoot : node;
      return [...inside.childNodes].map(said).join('');
    };
    return said(element).replace(/\s+/g, ' ').trim();
  });

/** The readings panel over the cover, at one of the demo truck's states. */
async function openState(name: string, options = {}, target = ''): Promise<Page> {
  const page = await site.open('index.html', options);
  const states = page.locator('plumb-sheet-menu select').first();
  const label = await states.locator('option', { hasText: name }).textContent();
  await states.selectOption({ label: label?.trim() ?? '' });
  await page.evaluate((hash) => (location.hash = hash), `#readings${target}`);
  await dialog(page).waitFor();
  return page;
}
const LOCKED = 'As driven, suspension locked for hanging';
const STRAPS = 'Lifted without straps';

async function violations(page: Page): Promise<string[]> {
  const { violations: found } = await new AxeBuilder({ page }).include('plumb-readings-sheet').analyze();
  return found.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join('; ')}`);
}

describe('the answer comes first', () => {
  it('with its ±, how many readings it is from, and whether they agree', async () => {
    const page = await openState(LOCKED);
    const answer = part(page, 'The answer');
    expect(await words(answer)).toMatch(/side tip, (left|right) side down, from 13 of 14 readings/);
    expect(await words(answer)).toMatch(/\d\d\.\d plus or minus \d\.\d degrees|\d\d\.\d°? ?± ?\d\.\d/);
    expect(await words(answer)).toContain('The readings agree:');
    expect(await part(page, 'What does not agree').count()).toBe(0);
    const chart = dialog(page).locator('svg.agreement-chart');
    expect(await chart.getAttribute('aria-label')).toContain('Photographs, 3 hangs');
  });

  it('in the quantity the reader cares about', async () => {
    const page = await openState(LOCKED);
    await dialog(page).getByLabel('What matters').selectOption({ label: 'Height above ground' });
    expect(await words(part(page, 'The answer'))).toMatch(/above ground, from 13 of 14 readings.*mm/);
    expect(await words(part(page, 'Measure next'))).toContain('height now ±');
    expect(await dialog(page).locator('svg.agreement-chart').getAttribute('aria-label')).toContain(
      'height above ground, mm',
    );
  });

  it('and says in each entry what it would be without it', async () => {
    const page = await openState(STRAPS);
    await expect.poll(() => words(entry(page, 'Axle scales'))).toMatch(/without it: \d\d\.\d° ± \d\.\d°/);
    await expect.poll(() => words(entry(page, 'Parts list'))).toMatch(/with it: /);
  });
});

describe('a reading that does not agree', () => {
  it('is named, with its likely slip, what would settle it, and both answers', async () => {
    const page = await openState(STRAPS);
    const wrong = part(page, 'What does not agree');
    await wrong.getByText('suspension not locked').waitFor();
    const told = await words(wrong);
    expect(await wrong.locator('plumb-bracket').first().getAttribute('title-text')).toBe(
      'Axle lift, tail up does not agree with the rest.',
    );
    expect(told).toMatch(/its load reads \d+ g ± \d+ g too much/);
    expect(told).toMatch(/Side tip with it: \d\d\.\d° ± \d\.\d°; without it: \d\d\.\d° ± \d\.\d°/);
    expect(told).toMatch(/Measure once more: Axle lift, tail up: that would tell them apart/);
    const chart = await dialog(page).locator('svg.agreement-chart').getAttribute('aria-label');
    expect(chart).toMatch(/Axle lift, tail up: .*does not agree/);
    expect(chart).toContain('Without axle lift, tail up');
    expect(await words(entry(page, 'Axle lift, tail up'))).toContain('does not agree');
    expect(await entry(page, 'Axle lift, tail up').getByRole('checkbox').isChecked()).toBe(true);
  });

  it('is set aside with the reader’s reason, stays told, and is counted again', async () => {
    const page = await openState(STRAPS);
    const wrong = part(page, 'What does not agree');
    await wrong.getByRole('button', { name: 'Set it aside' }).press('Enter');
    await page.keyboard.type('struts were out');
    await page.keyboard.press('Enter');
    await wrong.getByText('set aside, does not agree.').waitFor();
    const told = await words(wrong);
    expect(told).toContain('Your note: struts were out. Rear wheels on a box.');
    expect(told).toMatch(/With it counted the side tip would be \d\d\.\d° ± \d\.\d°: \d\.\d° less/);
    expect(await words(part(page, 'The answer'))).toContain('from 7 of 8 readings');
    expect(await words(part(page, 'The answer'))).toContain('The readings agree:');
    expect(await words(entry(page, 'Axle lift, tail up'))).toContain('set aside; note: struts were out');

    await wrong.getByRole('button', { name: 'Count it again' }).press('Enter');
    await wrong.getByText('does not agree with the rest.').waitFor();
    expect(await words(part(page, 'The answer'))).toContain('from 8 of 8 readings');
  });

  it('is measured again; the first stays counted unless the reader says otherwise', async () => {
    const page = await openState(STRAPS);
    const wrong = part(page, 'What does not agree');
    const lifts = entry(page, 'Axle lift, tail up');
    await wrong.getByRole('button', { name: 'Measure it again' }).press('Enter');
    await wrong.getByRole('button', { name: 'Add the new reading' }).press('Enter');
    expect(await lifts.count()).toBe(2);
    expect(await lifts.first().getByRole('checkbox').isChecked()).toBe(true);
    expect(await words(lifts.nth(1))).toContain('still to read');
    await dialog(page).getByRole('button', { name: 'Undo' }).press('Enter');
    expect(await lifts.count()).toBe(1);

    await wrong.getByRole('button', { name: 'Measure it again' }).press('Enter');
    await wrong.getByRole('checkbox', { name: 'Set the first one aside' }).press('Space');
    await wrong.getByLabel('Why').fill('no struts');
    await wrong.getByRole('button', { name: 'Add the new reading' }).press('Enter');
    expect(await lifts.first().getByRole('checkbox').isChecked()).toBe(false);
    expect(await lifts.nth(1).getByRole('checkbox').isChecked()).toBe(true);
    await dialog(page).getByRole('button', { name: 'Undo' }).press('Enter');
    expect(await lifts.count()).toBe(1);
    expect(await lifts.first().getByRole('checkbox').isChecked()).toBe(true);
  });

  it('can be left for what it is: Escape closes the question, not the panel', async () => {
    const page = await openState(STRAPS);
    const wrong = part(page, 'What does not agree');
    await wrong.getByRole('button', { name: 'Set it aside' }).press('Enter');
    await page.keyboard.press('Escape');
    expect(await wrong.getByRole('button', { name: 'Measure it again' }).isVisible()).toBe(true);
    expect(await dialog(page).isVisible()).toBe(true);
  });
});

describe('too few readings', () => {
  it('what they determine is told, what is open is named, and what would determine it', async () => {
    const page = await openState(STRAPS);
    for (const title of ['Axle lift', 'Hang by ruler, side view', 'Board'])
      for (const box of await dialog(page)
        .getByRole('checkbox', { name: `Count: ${title}` })
        .all())
        await box.uncheck();
    const answer = await words(part(page, 'The answer'));
    expect(answer).toContain('No reading determines the height of the CG yet.');
    expect(answer).toMatch(/ahead of the rear axle ?1\d\d\.\d ± \d\.\d mm/);
    expect(answer).toMatch(/mass ?29\d\d ± \d+ g/);
    expect(await words(part(page, 'What would determine it'))).toMatch(/Lift the (front|rear) axle/);
  });

  it('a number that cannot be read is not counted, and says so at its field', async () => {
    const page = await openState(STRAPS, {}, '/mass');
    const field = dialog(page)
      .getByRole('textbox', { name: /^Total mass[^±]*$/ })
      .first();
    await field.fill('-3');
    await expect.poll(() => words(part(page, 'The answer'))).toContain('from 7 of 8 readings');
    await entry(page, 'Total mass').getByText('needs a mass above zero').first().waitFor();
  });
});

describe('what to do with it', () => {
  it('the next reading leads to its entry, its choices made', async () => {
    const page = await openState(STRAPS);
    const next = part(page, 'Measure next');
    const first = next.getByRole('button').first();
    expect(await words(first)).toMatch(/\d+ min.*± \d\.\d+°/);
    const board = next.getByRole('button', { name: /^Tilt the board twice more to both sides/ });
    expect(await words(board)).toContain('Catch strap');
    const before = await dialog(page).locator('.list .entry').count();
    await board.press('Enter');
    await expect.poll(() => dialog(page).locator('.list .entry').count()).toBe(before + 4);
  });

  it('can this bench see it: limit, changes, and another build', async () => {
    const page = await openState(LOCKED);
    const seen = part(page, 'Can this bench see it?');
    expect(await words(seen)).toMatch(
      /Two builds must differ by \d\.\d° of side tip before this bench can tell them apart; with the same hooks, marks, camera and ruler, \d\.\d°\./,
    );
    expect(await words(seen)).toMatch(
      /Battery pack 40 mm lower ?move 238 g down 40 mm ?side tip \+\d\.\d° ± \d\.\d\d?°, height −\d\.\d mm ± \d\.\d\d? mm\./,
    );
    expect(await dialog(page).locator('svg.seen-chart').getAttribute('aria-label')).toContain(
      'Brass skid plate',
    );
    await seen.locator('.comparing select').selectOption({ label: 'Suspension free' });
    await expect.poll(() => words(seen)).toMatch(/The side tip is \d\.\d\d?\d?° ± \d\.\d°/);
  });

  it('the full table has every number, and draws take the place of a ± that does not hold', async () => {
    const page = await openState(STRAPS, {}, '/full');
    const full = dialog(page).locator('#full-table');
    expect(await words(full)).toMatch(/degrees of freedom ?6/);
    expect(await full.getByRole('row', { name: /Axle lift, tail up: load/ }).textContent()).toContain(
      'does not agree',
    );
    expect(await words(full.getByRole('row', { name: /^Front unsprung mass/ }))).toContain(
      'nothing checks it',
    );
    await full.getByRole('button', { name: 'Draw 100,000 times' }).press('Enter');
    const draws = full.getByRole('region', { name: 'First order and Monte Carlo, a table' });
    await draws.waitFor({ timeout: 60_000 });
    expect(await words(draws)).toContain('100,000 draws');
    const verdict = await words(draws.getByRole('row', { name: /^side tip/ }));
    const answer = await words(part(page, 'The answer'));
    expect(answer.includes('Monte Carlo draws')).toBe(verdict.includes('the draws are shown'));

    // Other readings: the draws are of no use any more.
    await entry(page, 'Axle scales').getByRole('checkbox').uncheck();
    await full.getByText('Not current.').waitFor();
    expect(await words(part(page, 'The answer'))).not.toContain('Monte Carlo draws');
  });

  it('draws can be stopped', async () => {
    const page = await openState(LOCKED, {}, '/full');
    const full = dialog(page).locator('#full-table');
    await full.getByRole('button', { name: 'Draw 100,000 times' }).click();
    await full.getByRole('button', { name: 'Stop' }).click();
    await full.getByText('Stopped.').waitFor();
    expect(await full.getByRole('button', { name: 'Draw 100,000 times' }).isVisible()).toBe(true);
  });
});

describe('the answer side fits', () => {
  it.each([
    ['light', LAPTOP],
    ['dark', LAPTOP],
    ['light', PHONE],
    ['dark', PHONE],
  ] as const)('%s, %o: no accessibility violation, all folds open', async (colorScheme, viewport) => {
    const page = await openState(STRAPS, { colorScheme, viewport }, '/full');
    await part(page, 'What does not agree').getByText('suspension not locked').waitFor();
    for (const fold of await dialog(page).locator('.next summary, .seen > .fold > summary').all())
      await fold.click();
    await part(page, 'What does not agree').getByRole('button', { name: 'Set it aside' }).click();
    expect(await violations(page)).toEqual([]);
  });

  it.each([320, 360, 768, 1024, 1280])('does not scroll sideways at %i px', async (width) => {
    const page = await openState(STRAPS, { viewport: { width, height: 740 } }, '/full');
    await part(page, 'What does not agree').waitFor();
    const wider = await dialog(page)
      .locator('.body')
      .evaluate((body) => body.scrollWidth - body.clientWidth);
    expect(wider).toBeLessThanOrEqual(0);
  });
});
