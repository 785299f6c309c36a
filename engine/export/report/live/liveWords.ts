import { showNumber, showTrimmed, showValue } from '../../../sheets/showValue.ts';
import type { LivePrice, LiveState } from './liveCalculation.ts';
import type { LiveModel, LiveRow, Slider } from './liveModel.ts';

/** What stands in the cells of a row: asks then, margin and contribution at today's price, and what to look at. */
export type LiveCells = readonly [asks: string, margin: string, contribution: string, state: string];

/** Texts of one row; the page and the table before it runs are worded by this alone. */
export function liveCells(price: LivePrice, today: LiveRow, { settings }: LiveModel): LiveCells {
  const money = (value: number): string => (Number.isNaN(value) ? '?' : showValue(value, 'money', settings));
  const words = [
    price.underFloor ? '▲ under floor' : '',
    price.asking === null ? 'no room' : '',
    today.setByHand ? 'set by hand' : '',
  ];
  return [
    price.asking === null ? 'none' : money(price.asking),
    Number.isNaN(price.margin) ? '?' : showValue(price.margin, 'percent', settings),
    money(price.contribution),
    words.filter((each) => each !== '').join(', '),
  ];
}

/** The whole in a sentence or two, for the line over the table and for screen readers. */
export function liveSummary({ prices, monthProfit }: LiveState, model: LiveModel): string {
  const { rows, settings } = model;
  const under = prices.filter(({ underFloor }) => underFloor).length;
  const underToday = rows.filter(({ underFloor }) => underFloor).length;
  const moved = prices.filter(({ asking }, at) => asking !== rows[at]?.asking).length;
  const sentences = [
    `At today’s asking prices ${under === 0 ? 'none' : under} of ${rows.length} ${under > 1 ? 'are' : 'is'} under the floor (today ${underToday}).`,
    moved === 0
      ? 'No asking price needs to change to keep the margins.'
      : `${moved} asking ${moved === 1 ? 'price changes' : 'prices change'} to keep the margins.`,
  ];
  if (monthProfit !== null && model.monthProfit !== null)
    sentences.push(
      `The month of the expected sales earns ${showValue(monthProfit, 'money', settings)} ${settings.currency} at today’s prices (today ${showValue(model.monthProfit, 'money', settings)}).`,
    );
  return sentences.join(' ');
}

/** What was moved, for paper and for whoever comes back to a page: `Wage 24.50 USD per hour; overhead +5 %.` */
export function movedWords(at: readonly number[], model: LiveModel): string {
  const moved = model.sliders.flatMap((slider, k) => {
    const figure = at[k] ?? slider.today;
    return figure === slider.today ? [] : [`${slider.name} ${sliderWords(slider, figure, model)}`];
  });
  return moved.length === 0 ? 'All figures are today’s.' : `Tried: ${moved.join('; ')}.`;
}

/** A slider's figure as it is read out: `24.50 USD per hour`, `+12 %`. */
export function sliderWords({ how, unit }: Slider, figure: number, { settings }: LiveModel): string {
  if (how === 'amount') return `${showNumber(figure, settings.currencyDigits, settings)} ${unit}`;
  const sign = how === 'share' && figure > 0 ? '+' : '';
  return `${sign}${showTrimmed(figure, 2, settings)} ${unit}`;
}

/** What to write instead of a figure that no slider takes. */
export function sliderBounds({ min, max }: Slider, { settings }: LiveModel): string {
  return `Write a number from ${showTrimmed(min, 2, settings)} to ${showTrimmed(max, 2, settings)}.`;
}
