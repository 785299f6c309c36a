import {
  type ChangeReport,
  showValue,
  type WhatIfPrice,
  type WhatIfReport,
  type WhatIfScenario,
} from '../../engine/index.ts';
import type { ShowHow } from './showHow.ts';
import { count, showProblems } from './showProblems.ts';
import { type TableColumn, type TableRow, table, widest, wrap } from './table.ts';

/** Stands after a new price that is another than today's. (A star is a price set by hand, in `sennit price`.) */
const changedMark = '^';
/** Stands after a margin of a price that is under its floor. */
const underFloorMark = '!';

interface Shown {
  readonly report: WhatIfReport;
  readonly how: ShowHow;
  readonly money: (value: number) => string;
  readonly share: (value: number) => string;
}

/** Today and each scenario: what changes, what it does to the line, and what to print on the price list. */
export function showWhatIf(report: WhatIfReport, channel: string | undefined, how: ShowHow): string {
  const shown: Shown = {
    report,
    how,
    money: (value) => showValue(value, 'money', how.settings),
    share: (value) => showValue(value, 'percent', how.settings),
  };
  const only = report.scenarios.length === 1 ? report.scenarios[0] : undefined;
  const parts = [
    report.scenarios.map((each) => summary(each, shown)).join('\n'),
    ...(only === undefined
      ? report.channels
          .filter((each) => channel === undefined || each === channel)
          .map((each) => sideBySide(each, shown))
      : channel === undefined
        ? priceList(only, shown)
        : [inFull(only, channel, shown)]),
    legend(report, only === undefined || channel !== undefined, how).join('\n'),
    ...report.scenarios.map((each) => showProblems(each.problems, how.style)),
    next(report, channel, how),
  ];
  return `${parts
    .filter((part) => part !== '')
    .join('\n')
    .trimEnd()}\n`;
}

/** The same in sentences, for screen readers and pipes. */
export function tellWhatIf(report: WhatIfReport, channel: string | undefined, how: ShowHow): string {
  const money = (value: number): string => showValue(value, 'money', how.settings);
  const share = (value: number): string => showValue(value, 'percent', how.settings);
  const shown: Shown = { report, how, money, share };
  const told = (price: WhatIfPrice): string =>
    `${price.product} at ${price.channel}: unit cost ${money(price.today.unitCost)}, then ${money(price.held.unitCost)}; asks ${money(price.today.asking)} today, margin ${share(price.today.margin)}, then ${share(price.held.margin)}${price.held.underFloor ? ', under its floor' : ''}; ${price.kept === null ? 'no price keeps the margin' : `${money(price.kept.asking)} keeps ${price.setByHand ? 'that' : 'the wanted'} margin${price.kept.underFloor ? ' and is under its floor' : ''}`}.`;
  const lines = report.scenarios.flatMap((scenario) => [
    summary(scenario, shown).trimEnd(),
    ...scenario.prices.filter((each) => channel === undefined || each.channel === channel).map(told),
  ]);
  return `${lines.join('\n')}\nAmounts in ${report.currency}.\n`;
}

function summary(
  { name, changes, later, prices, month }: WhatIfScenario,
  { how, money, report }: Shown,
): string {
  const moved = prices.filter((each) => each.kept?.asking !== each.today.asking).length;
  const under = prices.filter((each) => each.held.underFloor);
  const names = under
    .slice(0, 5)
    .map((each) => `${each.product} (${each.channel})`)
    .join(', ');
  const more = under.length > 5 ? `, and ${under.length - 5} more` : '';
  const listed = (all: readonly ChangeReport[], before: string): string[] =>
    all.flatMap(({ reads, effect, otherwise, from }) => [
      `  ${before}${reads}: ${effect}${from === '' ? '' : `, from ${from}`}`,
      ...(otherwise === '' ? [] : [`  (A per cent is written “${otherwise}”.)`]),
    ]);
  const still = prices.filter((each) => each.kept?.underFloor === true);
  const lines = [
    `${how.style.heading(name)}: ${moved === 0 ? 'no asking price needs to change' : `${moved} of ${prices.length} asking prices ${moved === 1 ? 'changes' : 'change'}`} to keep the margins.`,
    ...listed(changes, ''),
    ...listed(later, 'left out, as it begins later: '),
    under.length === 0
      ? 'At today’s asking prices none is under its floor.'
      : `At today’s asking prices ${count(under.length, 'price is', 'prices are')} under the floor: ${names}${more}.`,
    ...(still.length === 0
      ? []
      : [
          `${count(still.length, 'price that keeps its margin is', 'prices that keep their margins are')} under the floor too (${underFloorMark}): set by hand, and at a loss today.`,
        ]),
    ...(month === null
      ? []
      : [
          `The month of the expected sales mix earns ${money(month.today.profit)} ${report.currency} after overhead today, ${money(month.held.profit)} at today’s asking prices, ${money(month.kept.profit)} at those that keep the margins.`,
        ]),
  ];
  return `${lines.flatMap((line) => wrapped(line, how.width)).join('\n')}\n`;
}

/** Breaks a line and keeps its indent. */
function wrapped(line: string, width: number): string[] {
  const indent = /^ */.exec(line)?.[0] ?? '';
  return wrap(line.trim(), width - indent.length).map((each) => indent + each);
}

function column(heading: string, align: 'left' | 'right' = 'right'): TableColumn {
  return { heading, align };
}

/** One scenario: unit cost, and for each channel what the ticket says today and then. */
function priceList(scenario: WhatIfScenario, shown: Shown): string[] {
  const { report, how, money } = shown;
  const longest = widest(
    report.products.map(({ product }) => product.length),
    7,
  );
  const each = Math.max(1, Math.floor((how.width - Math.min(longest, 24) - 18) / 19));
  const tables: string[] = [];
  for (let at = 0; at < report.channels.length; at += each) {
    const channels = report.channels.slice(at, at + each);
    const columns = [
      column('Product', 'left'),
      column(`Unit cost, ${report.currency}`),
      column('then'),
      ...channels.flatMap((channel) => [column(`${capital(channel)}: asks`), column('then')]),
    ];
    const rows = byFamily(report, (product) => {
      const prices = scenario.prices.filter((price) => price.product === product);
      const [first] = prices;
      return [
        product,
        first === undefined ? '' : money(first.today.unitCost),
        first === undefined ? '' : money(first.held.unitCost),
        ...channels.flatMap((channel) => {
          const price = prices.find((one) => one.channel === channel);
          return price === undefined ? ['', ''] : [money(price.today.asking), then(price, shown)];
        }),
      ];
    });
    tables.push(table(columns, rows, how.width, how.style));
  }
  return tables;
}

/** One scenario and channel in full. */
function inFull(scenario: WhatIfScenario, channel: string, { report, how, money, share }: Shown): string {
  const columns = [
    column('Product', 'left'),
    ...[
      'Unit cost',
      'then',
      'Asks today',
      'Margin',
      'then',
      'Contri- bution',
      'then',
      'Asks then',
      'Margin',
    ].map((each) => column(each)),
  ];
  const rows = byFamily(report, (product) => {
    const price = scenario.prices.find((each) => each.product === product && each.channel === channel);
    if (price === undefined) return [product];
    const { today, held, kept } = price;
    return [
      product,
      money(today.unitCost),
      money(held.unitCost),
      money(today.asking),
      share(today.margin),
      `${share(held.margin)}${held.underFloor ? underFloorMark : ' '}`,
      money(today.contribution),
      money(held.contribution),
      then(price, { money }),
      kept === null ? '-' : share(kept.margin),
    ];
  });
  return table(columns, rows, how.width, how.style);
}

/** Several scenarios in one channel: the margin at today's price, and the price that keeps it. */
function sideBySide(channel: string, shown: Shown): string {
  const { report, how, money, share } = shown;
  const first = report.scenarios[0];
  const each = Math.max(1, Math.floor((how.width - 38) / 20));
  const tables: string[] = [];
  for (let at = 0; at < report.scenarios.length; at += each) {
    const some = report.scenarios.slice(at, at + each);
    const columns = [
      column('Product', 'left'),
      column(`${capital(channel)}: asks`),
      column('Margin'),
      ...some.flatMap(({ name }) => [column(`${capital(name)}: margin`), column('asks')]),
    ];
    const rows = byFamily(report, (product) => {
      const of = (scenario: WhatIfScenario | undefined): WhatIfPrice | undefined =>
        scenario?.prices.find((price) => price.product === product && price.channel === channel);
      const today = of(first)?.today;
      return [
        product,
        today === undefined ? '' : money(today.asking),
        today === undefined ? '' : share(today.margin),
        ...some.flatMap((scenario) => {
          const price = of(scenario);
          if (price === undefined) return ['', ''];
          return [
            `${share(price.held.margin)}${price.held.underFloor ? underFloorMark : ' '}`,
            then(price, shown),
          ];
        }),
      ];
    });
    tables.push(table(columns, rows, how.width, how.style));
  }
  return tables.join('\n');
}

function then({ today, kept }: WhatIfPrice, { money }: Pick<Shown, 'money'>): string {
  if (kept === null) return '-';
  const mark = kept.underFloor ? underFloorMark : kept.asking === today.asking ? ' ' : changedMark;
  return `${money(kept.asking)}${mark}`;
}

function byFamily(report: WhatIfReport, cells: (product: string) => readonly string[]): TableRow[] {
  const families = new Map<string, TableRow[]>();
  for (const { product, family } of report.products)
    families.set(family, [...(families.get(family) ?? []), cells(product)]);
  return [...families].flatMap(([family, rows]): TableRow[] =>
    family === '' ? rows : [{ group: family }, ...rows],
  );
}

function legend(report: WhatIfReport, margins: boolean, { width }: ShowHow): string[] {
  const prices = report.scenarios.flatMap((each) => each.prices);
  const lines = [
    prices.some(({ kept, today }) => kept !== null && kept.asking !== today.asking)
      ? `${changedMark} another price than today, with the channel’s price ending: it earns the wanted margin, or today’s own margin where the price is set by hand.`
      : '',
    prices.some(({ held, kept }) => kept?.underFloor === true || (margins && held.underFloor))
      ? `${underFloorMark} under its floor: each sale loses money.`
      : '',
    prices.some(({ kept }) => kept === null) ? '- fees and margin leave no room for any price.' : '',
  ];
  return lines.filter((line) => line !== '').flatMap((line) => wrap(line, width));
}

function next(report: WhatIfReport, channel: string | undefined, { command, book }: ShowHow): string {
  const lines = [
    channel === undefined
      ? `add --channel ${report.channels[0] ?? ''} for margins and contribution in one channel`
      : '',
    `${command} workbook ${book}   its scenarios as a switch`,
  ].filter((line) => line !== '');
  return `Next: ${lines.join('\n      ')}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
