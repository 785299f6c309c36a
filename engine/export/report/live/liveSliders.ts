import type { Settings } from '../../../book/settings.ts';
import type { CellPlace } from '../../../calc/program/compileProgram.ts';
import { roundTo } from '../../../money/rounding.ts';
import type { Plan } from '../../../sheets/plan.ts';
import type { Change } from '../../../whatif/words/change.ts';
import { isFault } from '../../../whatif/words/findInputs.ts';
import { parseChange } from '../../../whatif/words/parseChange.ts';
import type { Slider } from './liveModel.ts';

/** Steps from today to the end of a slider that moves an amount. */
const stepsAway = 60;
/** Per cents that a share may go up by; down it goes as far as a half. */
const mostShare = 100;
const leastShare = -50;
/** Half points of margin away from today's. */
const marginSteps = 50;
const mostMargin = 80;

/** The sliders of a book, and the cells that they move; what the book has nothing of has no slider. */
export function liveSliders(plan: Plan): {
  readonly sliders: readonly Slider[];
  readonly varied: readonly CellPlace[];
  readonly figures: readonly number[];
} {
  const varied: CellPlace[] = [];
  const figures: number[] = [];
  const { settings } = plan;
  const take = (text: string): { cells: number[]; first: number } | undefined => {
    const change = parseChange(text, plan);
    if (isFault(change)) return undefined;
    const places = numbersOf(plan, change);
    const cells = places.map(({ place, figure }) => {
      varied.push(place);
      return figures.push(figure) - 1;
    });
    return cells.length === 0 ? undefined : { cells, first: places[0]?.figure ?? 0 };
  };
  const sliders: Slider[] = [];
  const wage = take('wage +0 %');
  if (wage !== undefined)
    sliders.push({
      id: 'wage',
      label: 'Wage',
      name: 'wage',
      unit: `${settings.currency} per hour`,
      note: 'Before on-costs.',
      ...amountRange(wage.first, settings),
      how: 'amount',
      cells: wage.cells,
    });
  const share = (id: string, label: string, name: string, note: string): void => {
    const found = take(`${id} +0 %`);
    if (found === undefined) return;
    sliders.push({
      id,
      label,
      name,
      unit: '%',
      note,
      today: 0,
      min: leastShare,
      max: mostShare,
      step: 1,
      how: 'share',
      cells: found.cells,
    });
  };
  share('cord', 'Price of all cord, up or down', 'cord', 'A share of what each pack costs today.');
  const margin = take('margin +0 %');
  if (margin !== undefined)
    sliders.push({
      id: 'margin',
      label: 'Wanted margin',
      name: 'wanted margin',
      unit: '% of the net price',
      note: 'Where a channel, a product or a single price has its own wanted margin, that one stays.',
      ...marginRange(margin.first),
      how: 'percent',
      cells: margin.cells,
    });
  share(
    'overheads',
    'Overhead, up or down',
    'overhead',
    'A share of what each overhead costs a month today.',
  );
  return { sliders, varied, figures };
}

function numbersOf(plan: Plan, { cells }: Change): { place: CellPlace; figure: number }[] {
  return cells.flatMap(({ sheet, column, rows }) => {
    const inputs = plan.sheets
      .find(({ id }) => id === sheet)
      ?.columns.find(({ id }) => id === column)?.inputs;
    return rows.flatMap((row) => {
      const figure = inputs?.[row];
      return typeof figure === 'number' ? [{ place: { sheet, column, row }, figure }] : [];
    });
  });
}

type Range = Pick<Slider, 'today' | 'min' | 'max' | 'step'>;

/** A slider stands on whole steps from its end, so the ends lie whole steps away from today. */
function rangeAround(today: number, step: number, down: number, up: number): Range {
  const exact = (figure: number): number => roundTo(figure, 6);
  return { today, step, min: exact(today - down * step), max: exact(today + up * step) };
}

function amountRange(today: number, { currencyDigits }: Settings): Range {
  const coin = 10 ** -currencyDigits;
  const step = Math.max(coin, niceStep(today / stepsAway));
  return rangeAround(today, step, Math.min(stepsAway, Math.floor(roundTo(today / step, 6))), stepsAway);
}

function marginRange(ratio: number): Range {
  const today = roundTo(ratio * 100, 6);
  const step = 0.5;
  const up = Math.max(0, Math.min(marginSteps, Math.floor((mostMargin - today) / step)));
  return rangeAround(today, step, Math.min(marginSteps, Math.max(0, Math.floor(today / step))), up);
}

/** 1, 2 or 5 of a power of ten, near the size wanted. */
function niceStep(wanted: number): number {
  if (wanted <= 0) return 1;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const share = wanted / power;
  return roundTo((share < 1.5 ? 1 : share < 3.5 ? 2 : share < 7.5 ? 5 : 10) * power, 6);
}
