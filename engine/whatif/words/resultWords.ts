/*
 * What makers call the results of a book. Where no word fits, the heading of a column does, or the sheet language:
 * `prices[fob short, stall].margin`, `month.profit`.
 */

/** A column that a word stands for. */
export interface ResultWord {
  readonly words: readonly string[];
  readonly sheet: string;
  readonly column: string;
  /** As it is told back; the first of the words where absent. */
  readonly reads?: string;
}

export const resultWords: readonly ResultWord[] = Object.freeze([
  { words: ['margin', 'margins'], sheet: 'prices', column: 'margin' },
  { words: ['contribution', 'contributions'], sheet: 'prices', column: 'contribution' },
  {
    words: ['contribution per hour', 'contribution per bench hour', 'contribution an hour'],
    sheet: 'prices',
    column: 'contribution_per_hour',
    reads: 'contribution per bench hour',
  },
  { words: ['profit', 'profits'], sheet: 'prices', column: 'profit' },
  { words: ['asking price', 'asks', 'price', 'prices', 'ticket'], sheet: 'prices', column: 'asking' },
  { words: ['floor', 'floor price'], sheet: 'prices', column: 'floor' },
  { words: ['target', 'target price'], sheet: 'prices', column: 'target' },
  { words: ['net price', 'net'], sheet: 'prices', column: 'net' },
  { words: ['markup'], sheet: 'prices', column: 'markup' },
  { words: ['wanted margin', 'margin wanted'], sheet: 'prices', column: 'wanted_margin' },
  { words: ['fees'], sheet: 'prices', column: 'fees' },
  { words: ['unit cost', 'cost'], sheet: 'costs', column: 'unit_cost' },
  { words: ['variable cost'], sheet: 'costs', column: 'variable_cost' },
  { words: ['materials', 'cost of materials'], sheet: 'costs', column: 'materials' },
  { words: ['cord', 'cords', 'cost of cord'], sheet: 'costs', column: 'cords', reads: 'cost of cord' },
  { words: ['labour', 'cost of labour'], sheet: 'costs', column: 'labour' },
  { words: ['overhead'], sheet: 'costs', column: 'overhead' },
  { words: ['bench minutes', 'minutes'], sheet: 'costs', column: 'minutes' },
  { words: ['weight'], sheet: 'costs', column: 'weight' },
  {
    words: ['break-even pieces', 'break-even', 'break even'],
    sheet: 'break_even',
    column: 'pieces',
    reads: 'break-even pieces',
  },
  {
    words: ['break-even takings', 'break even takings'],
    sheet: 'break_even',
    column: 'takings',
    reads: 'break-even takings',
  },
]);

/** Of the month as a whole; further ones by their headings. */
export const monthWords: readonly ResultWord[] = Object.freeze([
  { words: ['contribution'], sheet: 'month', column: 'contribution' },
  { words: ['profit'], sheet: 'month', column: 'profit' },
  { words: ['profit after tax'], sheet: 'month', column: 'profit_after_tax' },
  { words: ['takings', 'sales'], sheet: 'month', column: 'takings' },
  { words: ['bench hours', 'hours'], sheet: 'month', column: 'bench_hours' },
  { words: ['margin of safety'], sheet: 'month', column: 'safety' },
  {
    words: ['break-even', 'break even', 'break-even pieces'],
    sheet: 'month',
    column: 'break_even_pieces',
    reads: 'break-even pieces',
  },
  {
    words: ['break-even takings', 'break even takings'],
    sheet: 'month',
    column: 'break_even_takings',
    reads: 'break-even takings',
  },
]);
