/*
 * What makers call the inputs of a book. Where no word fits, the names of the sheet language do:
 * `materials[slate cord].pack_price`, `channels[online].postage_paid`.
 */

/** Columns that a word stands for; the first is the one that takes a new value. */
export interface InputWord {
  readonly words: readonly string[];
  readonly sheet: string;
  readonly columns: readonly string[];
  /** Further columns that move along by per cents and amounts of the same kind. */
  readonly along?: { readonly sheet: string; readonly columns: readonly string[] };
  /** The word alone means one figure, the sum of its cells: an amount or a new value is of them together. */
  readonly together?: true;
}

export const inputWords: readonly InputWord[] = Object.freeze([
  { words: ['wage', 'wages', 'pay'], sheet: 'rates', columns: ['wage_per_hour'] },
  { words: ['on-costs', 'on costs'], sheet: 'rates', columns: ['on_costs_percent'] },
  { words: ['bench hours', 'hours'], sheet: 'rates', columns: ['bench_hours_per_month'] },
  { words: ['sales tax', 'tax'], sheet: 'rates', columns: ['tax_percent'] },
  { words: ['overhead', 'overheads'], sheet: 'overheads', columns: ['per_month'], together: true },
  {
    words: ['price', 'prices', 'pack price', 'pack prices', 'cost of buying'],
    sheet: 'materials',
    columns: ['pack_price'],
    along: { sheet: 'packs', columns: ['price'] },
  },
  {
    words: ['freight'],
    sheet: 'materials',
    columns: ['freight'],
    along: { sheet: 'packs', columns: ['freight'] },
  },
  { words: ['duty'], sheet: 'materials', columns: ['duty_percent'] },
  { words: ['waste'], sheet: 'materials', columns: ['waste_percent'] },
  { words: ['exchange rate', 'rate', 'currency'], sheet: 'exchange', columns: ['rate'] },
  {
    words: ['fees', 'fee'],
    sheet: 'fees',
    columns: ['percent'],
    along: { sheet: 'fees', columns: ['fixed_per_order', 'fixed_per_piece'] },
  },
  { words: ['postage'], sheet: 'channels', columns: ['postage_paid'] },
  { words: ['discount', 'wholesale discount'], sheet: 'channels', columns: ['wholesale_discount_percent'] },
  {
    words: ['minutes', 'work', 'bench minutes'],
    sheet: 'work',
    columns: ['minutes_per_piece', 'minutes_per_batch', 'minutes_per_length'],
  },
  { words: ['asking price', 'asking prices', 'ticket'], sheet: 'prices', columns: ['asking_set'] },
  {
    words: ['pieces a month', 'pieces sold', 'pieces', 'sales'],
    sheet: 'sales_mix',
    columns: ['pieces_per_month'],
  },
  // Figures of one row or line alone, where the heading of their column would read oddly in a sentence.
  { words: ['tax'], sheet: 'channels', columns: ['tax_percent'] },
  { words: ['pack size'], sheet: 'materials', columns: ['pack'] },
  { words: ['weight as weighed'], sheet: 'materials', columns: ['weight'] },
  { words: ['finished length'], sheet: 'products', columns: ['finished_length'] },
  { words: ['woven length'], sheet: 'products', columns: ['woven_length_set'] },
  { words: ['length taken by hardware'], sheet: 'products', columns: ['hardware_length'] },
  { words: ['length taken by webbing'], sheet: 'products', columns: ['webbing_length'] },
  { words: ['wanted profit'], sheet: 'rates', columns: ['wanted_profit_per_month'] },
  { words: ['cutting step'], sheet: 'rates', columns: ['cut_step'] },
  { words: ['trim at each end'], sheet: 'rates', columns: ['trim_per_end'] },
  { words: ['overlap of a join'], sheet: 'rates', columns: ['join_overlap'] },
  { words: ['turns of a hitch'], sheet: 'rates', columns: ['turns_per_hitch'] },
  { words: ['shortest end kept'], sheet: 'rates', columns: ['keep_from'] },
  { words: ['assumed spread'], sheet: 'rates', columns: ['assumed_spread_percent'] },
  { words: ['chance of running short'], sheet: 'rates', columns: ['chance_of_short_percent'] },
]);

/** `margin` means the general one alone, that of a channel or a product after `of`. */
export const marginWords: readonly string[] = ['margin', 'wanted margin', 'margins'];

/** Groups of materials by what they are. */
export const materialGroups: Readonly<Record<string, 'cord' | 'webbing' | 'piece' | 'all'>> = Object.freeze({
  cord: 'cord',
  cords: 'cord',
  'all cord': 'cord',
  'all cords': 'cord',
  webbing: 'webbing',
  webbings: 'webbing',
  parts: 'piece',
  fittings: 'piece',
  hardware: 'piece',
  materials: 'all',
  'all materials': 'all',
});
