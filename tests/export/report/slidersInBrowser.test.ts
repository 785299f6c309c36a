import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BookReport } from '../../../engine/export/report/bookReport.ts';
import type { LiveModel, Slider } from '../../../engine/export/report/live/liveModel.ts';
import { showValue } from '../../../engine/sheets/showValue.ts';
import { whatIfBook } from '../../../engine/whatIfBook.ts';
import type { WhatIfScenario } from '../../../engine/whatif/whatIf.ts';
import { demoBook, demoBooks, sourceOf } from '../../support/books.ts';
import { findBrowser, openHtml, startBrowser, withPageFolder } from '../../support/browser.ts';
import { pageCode, pageOf, reportOf } from './pages.ts';

/** The same change in the words that `sennit whatif` takes. */
function changeText(slider: Slider, figure: number, { settings }: LiveModel): string {
  const text = String(figure).replace('.', settings.decimal === 'comma' ? ',' : '.');
  if (slider.how === 'share') return `${slider.name} ${figure < 0 ? '' : '+'}${text} %`;
  return `${slider.id} = ${text}`;
}

/** What a row of the page's table is to say after a change: today's asking price, then, margin, contribution, state. */
function rowsSaid({ prices }: WhatIfScenario, { settings }: LiveModel): string[][] {
  return prices.map(({ today, held, kept, setByHand }) => [
    showValue(today.asking, 'money', settings),
    kept === null ? 'none' : showValue(kept.asking, 'money', settings),
    showValue(held.margin, 'percent', settings),
    showValue(held.contribution, 'money', settings),
    [held.underFloor ? '▲ under floor' : '', kept === null ? 'no room' : '', setByHand ? 'set by hand' : '']
      .filter((each) => each !== '')
      .join(', '),
  ]);
}

/** The table as it stands in the page. */
async function rowsShown(page: Page): Promise<string[][]> {
  return (await page.evaluate(
    '[...document.querySelectorAll("tr[data-live]")].map((row) => [...row.querySelectorAll("td")].map((each) => each.textContent))',
  )) as string[][];
}

/** Puts a slider where it is told, as a finger does. */
async function slideTo(page: Page, slider: Slider, figure: number): Promise<void> {
  await page.locator(`#${slider.id}-range`).evaluate((element, value) => {
    const range = element as unknown as { value: string; dispatchEvent(event: Event): void };
    range.value = value;
    range.dispatchEvent(new Event('input', { bubbles: true }));
  }, String(figure));
}

/** Its ends, and places between that no one would write down. */
function places({ min, max, step, today }: Slider): number[] {
  const near = (share: number): number =>
    Number((min + Math.round(((max - min) * share) / step) * step).toFixed(6));
  return [...new Set([min, near(0.21), near(0.48), near(0.83), max])].filter((each) => each !== today);
}

describe.skipIf(findBrowser() === undefined)('sliders of the page in a browser', () => {
  let browser: Browser;
  const pages = new Map<string, { report: BookReport; html: string }>();
  const withBook = (
    name: string,
    use: (page: Page, model: LiveModel, said: readonly string[]) => Promise<void>,
  ): Promise<void> =>
    withPageFolder(async (folder) => {
      const { report, html } = pages.get(name) ?? {};
      if (html === undefined || report?.live == null) throw new Error(`The book ${name} has no sliders`);
      const { page, said } = await openHtml(browser, html, folder, { width: 1000 });
      await use(page, report.live.model, said);
      expect(said).toEqual([]);
      await page.close();
    });

  beforeAll(async () => {
    const [started, code] = await Promise.all([startBrowser(), pageCode()]);
    browser = started;
    for (const name of demoBooks) {
      const report = reportOf(demoBook(name));
      pages.set(name, { report, html: pageOf(report, code) });
    }
  });
  afterAll(() => browser.close());

  describe.each(demoBooks)('of the book %s', (name) => {
    it.each(['wage', 'cord', 'margin', 'overheads'])('say what sennit whatif says: %s', (id) =>
      withBook(name, async (page, model) => {
        const slider = model.sliders.find((each) => each.id === id);
        if (slider === undefined) throw new Error(`No slider ${id}`);
        const at = places(slider);
        expect(at.length).toBeGreaterThan(3);
        for (const figure of at) {
          const text = changeText(slider, figure, model);
          const { report, problems } = whatIfBook(sourceOf(demoBook(name)), {
            scenarios: [],
            changes: [text],
            on: '',
          });
          const scenario = report?.scenarios[0];
          if (scenario === undefined) throw new Error(`${text}: ${JSON.stringify(problems)}`);
          await slideTo(page, slider, figure);
          expect({ text, rows: await rowsShown(page) }).toEqual({ text, rows: rowsSaid(scenario, model) });
          const profit = showValue(scenario.month?.held.profit ?? Number.NaN, 'money', model.settings);
          expect(await page.locator('#live-summary').textContent()).toContain(
            `earns ${profit} ${model.settings.currency} at`,
          );
        }
      }),
    );

    it('say what whatif says of all changes at once', () =>
      withBook(name, async (page, model) => {
        const moved = model.sliders.map((slider) => ({ slider, figure: places(slider).at(3) ?? slider.max }));
        const { report } = whatIfBook(sourceOf(demoBook(name)), {
          scenarios: [],
          changes: moved.map(({ slider, figure }) => changeText(slider, figure, model)),
          on: '',
        });
        const scenario = report?.scenarios[0];
        if (scenario === undefined) throw new Error('Nothing was changed');
        for (const { slider, figure } of moved) await slideTo(page, slider, figure);
        expect(await rowsShown(page)).toEqual(rowsSaid(scenario, model));
      }));

    it('go back to today to the last letter', () =>
      withBook(name, async (page, model) => {
        const text = (): Promise<string | null> => page.locator('#try').textContent();
        const [rows, words] = [await rowsShown(page), await text()];
        for (const slider of model.sliders) await slideTo(page, slider, slider.max);
        expect(await rowsShown(page)).not.toEqual(rows);
        expect(await page.locator('td.moved').count()).toBeGreaterThan(0);
        await page.getByRole('button', { name: 'Back to today’s figures' }).click();
        expect(await rowsShown(page)).toEqual(rows);
        expect(await page.locator('td.moved').count()).toBe(0);
        // What is read out comes after a silence; everything else is at once as it was.
        await page.locator('#live-told').evaluate((each) => {
          each.textContent = '';
        });
        expect(await text()).toBe(words);
      }));
  });

  it('keep slider and number field in step, either way, and say so to who does not see', () =>
    withBook('starter', async (page) => {
      const range = page.getByRole('slider', { name: 'Wage', exact: true });
      const number = page.getByRole('spinbutton', { name: 'Wage, USD per hour, as a number' });
      expect(await range.getAttribute('aria-valuetext')).toBe('22.00 USD per hour');
      await number.fill('25.5');
      expect(await range.inputValue()).toBe('25.5');
      expect(await range.getAttribute('aria-valuetext')).toBe('25.50 USD per hour');
      expect(await page.locator('#live-moved').textContent()).toBe('Tried: wage 25.50 USD per hour.');
      await range.fill('27');
      expect(await number.inputValue()).toBe('27');
      expect(await page.locator('#live-moved').textContent()).toBe('Tried: wage 27.00 USD per hour.');
    }));

  it('take a figure between two steps as it is written', () =>
    withBook('starter', async (page, model) => {
      const wage = model.sliders.find(({ id }) => id === 'wage');
      if (wage === undefined) throw new Error('No wage');
      const { report } = whatIfBook(sourceOf(demoBook('starter')), {
        scenarios: [],
        changes: ['wage = 23.37'],
        on: '',
      });
      await page.locator('#wage-number').fill('23.37');
      const scenario = report?.scenarios[0];
      if (scenario === undefined) throw new Error('Nothing was changed');
      expect(await rowsShown(page)).toEqual(rowsSaid(scenario, model));
    }));

  it.each(['', '9999', '-3'])('refuse “%s” in words, and leave the table as it was', (typed) =>
    withBook('starter', async (page, model) => {
      const rows = await rowsShown(page);
      const number = page.locator('#wage-number');
      await number.fill(typed);
      const wage = model.sliders.find(({ id }) => id === 'wage');
      const wrong = page.locator('#wage-wrong');
      expect(await wrong.isVisible()).toBe(true);
      expect(await wrong.textContent()).toBe(`Write a number from ${wage?.min} to ${wage?.max}.`);
      expect(await number.getAttribute('aria-invalid')).toBe('true');
      expect(await rowsShown(page)).toEqual(rows);
      await number.fill('22');
      expect(await wrong.isVisible()).toBe(false);
      expect(await number.getAttribute('aria-invalid')).toBe('false');
    }),
  );

  it('are moved by keys, one step at a time and to their ends', () =>
    withBook('starter', async (page, model) => {
      const cord = model.sliders.find(({ id }) => id === 'cord');
      const range = page.locator('#cord-range');
      const before = await rowsShown(page);
      await range.focus();
      await page.keyboard.press('ArrowRight');
      expect(await page.locator('#cord-number').inputValue()).toBe('1');
      expect(await range.getAttribute('aria-valuetext')).toBe('+1 %');
      expect(await rowsShown(page)).not.toEqual(before);
      await page.keyboard.press('ArrowLeft');
      expect(await rowsShown(page)).toEqual(before);
      await page.keyboard.press('End');
      expect(await page.locator('#cord-number').inputValue()).toBe(String(cord?.max));
      await page.keyboard.press('Home');
      expect(await page.locator('#cord-number').inputValue()).toBe(String(cord?.min));
    }));

  it('read the result out once they rest, not while they move', () =>
    withBook('starter', async (page) => {
      const told = page.locator('#live-told');
      expect(await told.getAttribute('aria-live')).toBe('polite');
      expect(await told.textContent()).toBe('');
      // An installed clock still runs on with the world's: on a slow machine it would let the sliders rest.
      await page.clock.install({ time: 0 });
      await page.clock.pauseAt(1000);
      const range = page.locator('#wage-range');
      await range.focus();
      for (let press = 0; press < 5; press += 1) {
        await page.keyboard.press('ArrowRight');
        await page.clock.runFor(100);
        expect(await told.textContent()).toBe('');
      }
      await page.clock.runFor(1000);
      expect(await told.textContent()).toBe(await page.locator('#live-summary').textContent());
      // The line that is seen is not read out as well.
      expect(await page.locator('#live-summary').getAttribute('aria-live')).toBeNull();
    }));
});
