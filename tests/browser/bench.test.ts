import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { sheetOpen, useBareSite } from './bareSite';

const site = useBareSite();

const wheelbase = (page: Page): Promise<string> =>
  page.evaluate(() => window.plumb.bench.openState.value.dimensions.wheelbase.text);

const setWheelbase = (page: Page, text: string): Promise<boolean> =>
  page.evaluate(
    (typed) =>
      window.plumb.bench.edit('Wheelbase', (draft) => {
        for (const state of draft.states) state.dimensions.wheelbase.text = typed;
      }).ok,
    text,
  );

const saved = (page: Page): Promise<void> => page.evaluate(() => window.plumb.bench.saved());

const saveState = (page: Page): Promise<unknown> => page.evaluate(() => window.plumb.bench.saveState.value);

describe('a first visit', () => {
  test('opens the demo truck, from a page at any depth', async () => {
    for (const at of ['', 'deeper/'] as const) {
      const page = await site.open(await site.profile(), at);
      expect(
        await page.evaluate(async () => {
          const { kept, pictureBlob } = window.plumb.bench;
          return [kept.value.name, kept.value.demo, (await pictureBlob('standing'))?.type];
        }),
      ).toEqual(['Invented', true, 'image/jpeg']);
    }
  });
});

describe('an edit', () => {
  test('is there after a reload, and on another page', async () => {
    const profile = await site.profile();
    const page = await site.open(profile);
    await setWheelbase(page, '12.3 in');
    await saved(page);
    await page.reload();
    await sheetOpen(page);
    expect(await wheelbase(page)).toBe('12.3 in');
    expect(await wheelbase(await site.open(profile, 'deeper/'))).toBe('12.3 in');
  });

  test('made in the moment of leaving the page is not lost', async () => {
    const page = await site.open(await site.profile());
    for (const text of ['301', '302', '303']) {
      await page.evaluate((typed) => {
        window.plumb.bench.edit('Wheelbase', (draft) => {
          for (const state of draft.states) state.dimensions.wheelbase.text = typed;
        });
        location.reload();
      }, text);
      await page.waitForLoadState();
      await sheetOpen(page);
      expect(await wheelbase(page)).toBe(text);
      expect(await page.evaluate(() => window.plumb.bench.notices.value)).toEqual([]);
    }
  });

  test('of an earlier page shows on going back', async () => {
    const page = await site.open(await site.profile());
    await setWheelbase(page, '301');
    await page.evaluate(() => location.assign('deeper/index.html'));
    await page.waitForURL(/deeper/);
    await sheetOpen(page);
    expect(await wheelbase(page)).toBe('301');
    await setWheelbase(page, '302');
    await page.goBack();
    await sheetOpen(page);
    await expect.poll(() => wheelbase(page)).toBe('302');
  });
});

describe('two tabs', () => {
  test('do not overwrite each other silently', async () => {
    const profile = await site.profile();
    const one = await site.open(profile);
    await setWheelbase(one, '301');
    await saved(one);
    const two = await site.open(profile);
    await setWheelbase(two, '302');
    await saved(two);
    await setWheelbase(one, '303');
    await saved(one);
    expect(await saveState(one)).toMatchObject({ state: 'not saved', reason: 'changed-elsewhere' });
    await one.evaluate(() => window.plumb.bench.takeOther());
    expect(await wheelbase(one)).toBe('302');
    expect(await saveState(one)).toEqual({ state: 'saved' });
  });
});

describe('a file', () => {
  test('takes sheet and pictures to another browser', async () => {
    const page = await site.open(await site.profile());
    const text = await page.evaluate(async () => {
      await window.plumb.bench.copySheet('Mine');
      return window.plumb.bench.exportJson();
    });
    const other = await site.open(await site.profile());
    expect(
      await other.evaluate(async (file) => {
        const { importJson, kept, pictureBlob } = window.plumb.bench;
        const { ok } = await importJson(file);
        return [ok, kept.value.name, (await pictureBlob('standing'))?.size];
      }, text),
    ).toEqual([true, 'Mine', 2472]);
  });
});

describe('a browser that keeps nothing', () => {
  test('works for the length of the visit, and says so', async () => {
    const profile = await site.profile();
    await profile.addInitScript(() => {
      Object.defineProperty(window, 'indexedDB', { value: undefined });
      Object.defineProperty(window, 'localStorage', {
        get: () => {
          throw new DOMException('refused', 'SecurityError');
        },
      });
    });
    const page = await site.open(profile);
    expect(await setWheelbase(page, '313')).toBe(true);
    expect(await saveState(page)).toMatchObject({ state: 'not saved', reason: 'no-storage' });
  });
});
