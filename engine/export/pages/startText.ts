/** The words of a first page. */
export interface FrontPage {
  /** What the workbook is of, as it stands behind the workshop's name. */
  readonly subject: string;
  readonly purpose: readonly (readonly [label: string, text: string])[];
  /** Where to look first: label, sheet and column. */
  readonly placesTitle: string;
  readonly places: readonly (readonly [label: string, sheet: string, column: string])[];
  readonly sources: readonly (readonly [label: string, text: string])[];
  readonly cautions: readonly (readonly [label: string, text: string])[];
}

const purpose: readonly (readonly [string, string])[] = [
  ['Costs', 'What each piece costs to make: cord, parts, bench time and overhead.'],
  ['Prices', 'What to ask for it in each channel, and what is left of that price.'],
  ['Live', 'Every result is a formula: change a cell on an input ground and every sheet follows.'],
];

export const legend = {
  input: 'You fill these in. They are the only cells, with the next kind, that can be changed.',
  override: 'Leave blank to use the computed figure; write one to set it by hand.',
  computed: 'Worked out and locked, without a password: a guard rail, not a wall.',
  check: 'Says “well”, or “look” where a figure needs a look. ▲ then marks the figure.',
} as const;

const sources: readonly (readonly [string, string])[] = [
  [
    'Estimated',
    'Cord comes from the geometry of the weave until you measure a piece. The column Numbers on Weaves and Products says which of the two a row uses.',
  ],
  ['Measured', 'A take-up from your own test piece, on Weaves or Products, replaces the geometry.'],
  [
    'Set by hand',
    'A woven length or an asking price that you wrote yourself. The computed one stays beside it.',
  ],
];

/** What the bench must mind, whoever works at it. */
export const benchCautions: readonly (readonly [string, string])[] = [
  [
    'Flame and melt',
    'Ventilate, keep water near, tie back hair and wear no loose sleeves. Melted cord sticks and burns.',
  ],
  ['Loops round a neck', 'Use a breakaway fitting. Never leave a pet or a child unattended in one.'],
  ['Small parts', 'They choke: keep beads, cut ends and fittings from children under three.'],
  ['Loads', 'Not for climbing, life-safety or lifting. Knots weaken cord.'],
];

/** What whoever buys a piece must mind. */
export const customerCautions: readonly (readonly [string, string])[] = [
  [
    'Loops round a neck',
    'Wear one only with a fitting that breaks away. Never leave a pet or a child unattended in one.',
  ],
  ['Small parts', 'Not for children under three: beads, rings, fittings and cord ends can choke.'],
  ['Loads', 'Not for climbing, lifting or saving life. Knots weaken cord.'],
];

const cautions: readonly (readonly [string, string])[] = [
  ...benchCautions,
  [
    'Rules',
    'Tax, consumer and accounting rules are local. A licensed professional decides; nothing here is such advice.',
  ],
];

export const licence =
  'This workbook is the maker’s own: keep it, change it, hand it on. Sennit, the program that wrote it, is free software under the GNU General Public License, version 3.';

/** The first page of a workbook of costs and prices. */
export const pricesFront: FrontPage = {
  subject: 'costs and prices',
  purpose,
  placesTitle: 'Where to change what',
  places: [
    ['Wage', 'rates', 'wage_per_hour'],
    ['Margin', 'rates', 'wanted_margin_percent'],
    ['Cord prices', 'materials', 'pack_price'],
    ['Cord of a product', 'products', 'over_cord'],
    ['Asking prices', 'prices', 'asking_set'],
    ['Another scenario', 'what_if', 'scenario'],
  ],
  sources,
  cautions,
};
