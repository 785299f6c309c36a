import type { WhatIfPrice, WhatIfReport } from '../../../whatif/whatIf.ts';
import { escaped } from '../../escaped.ts';
import type { BookReport } from '../bookReport.ts';
import { chartFigure } from '../chartFigure.ts';
import { type Dot, type DotRow, dotsChart } from '../charts/dotsChart.ts';
import type { Shown } from '../charts/ladderChart.ts';
import { type DataRow, figures, words } from '../dataTable.ts';
import { item, key, keyList } from '../key.ts';
import { axisShare, capital, counted, extreme, shownIn } from '../shown.ts';
import type { Section } from './section.ts';

/** The scenarios of the book side by side: margins at today's prices, prices that keep them, the month's profit. */
export function scenarioComparison(report: BookReport): Section | null {
  const { scenarios } = report;
  if (scenarios === null || scenarios.scenarios.length === 0) return null;
  const changes = scenarios.scenarios.map(
    ({ name, changes: own }) =>
      `<li><b><bdi>${escaped(name)}</bdi></b>: ${own
        .map(({ text, from }) => `<bdi>${escaped(text)}</bdi>${from === '' ? '' : ` from ${escaped(from)}`}`)
        .join('; ')}</li>`,
  );
  return {
    id: 'scenarios',
    title: 'What becomes of the margins in each scenario?',
    link: 'Scenarios',
    html: `<ul>${changes.join('\n')}</ul>
${margins(report, scenarios)}
${months(report, scenarios)}`,
  };
}

function margins({ settings }: BookReport, { scenarios, channels }: WhatIfReport): string {
  const shown = shownIn(settings);
  const under = (prices: readonly WhatIfPrice[]): number =>
    prices.filter(({ held }) => held.underFloor).length;
  const worst = extreme(scenarios, ({ prices }) => under(prices), 'most');
  const many = worst === undefined ? 0 : under(worst.prices);
  const title =
    worst === undefined || many === 0
      ? 'At today’s prices no scenario puts a price under its floor'
      : `${capital(worst.name)} puts ${counted(many, 'price')} under the floor at today’s prices`;
  const first = scenarios[0]?.prices ?? [];
  const rows = channels.flatMap((channel): DotRow[] => [
    { label: channel, heading: true, dots: [] },
    rowOf('Today', ofChannel(first, channel), 'today'),
    ...scenarios.map(({ name, prices }) => rowOf(name, ofChannel(prices, channel), 'held')),
  ]);
  return chartFigure({
    title,
    key: key(['dot', 'underFloor']),
    kind: 'Margin on the net price of each product at today’s asking prices, a row of dots for each channel and scenario',
    draw: (size) =>
      dotsChart(
        {
          rows,
          axisName: 'Margin at today’s asking price, %',
          axis: axisShare(settings),
          rowPx: 23,
          leftPx: { wide: 160, narrow: 112 },
          seeThrough: true,
          fromZero: true,
        },
        size,
      ),
    table: {
      caption: `Margin at today’s asking price, and the price that keeps the margin, ${settings.currency}; ▲ under its floor`,
      columns: [
        words('Channel'),
        figures('Asks today'),
        figures('Margin'),
        ...scenarios.flatMap(({ name }) => [figures(`${capital(name)}: margin`), figures('asks')]),
      ],
      rows: tableRows(scenarios, shown),
    },
  });
}

function rowOf(label: string, prices: readonly WhatIfPrice[], state: 'today' | 'held'): DotRow {
  const under = prices.filter((price) => price[state].underFloor).length;
  return {
    label,
    words: under === 0 ? 'none under' : `${under} under ▲`,
    dots: prices.map((price): Dot => {
      const { margin, underFloor } = price[state];
      return underFloor
        ? { figure: margin, mark: 'triangle', colour: 'bad' }
        : { figure: margin, mark: 'circle', colour: state === 'today' ? 'slate' : 'accent' };
    }),
  };
}

function ofChannel(prices: readonly WhatIfPrice[], channel: string): WhatIfPrice[] {
  return prices.filter((each) => each.channel === channel);
}

function tableRows(scenarios: WhatIfReport['scenarios'], { money, share }: Shown): DataRow[] {
  let product: string | undefined;
  return (scenarios[0]?.prices ?? []).flatMap((price, at): DataRow[] => {
    const group = price.product === product ? [] : [{ group: price.product }];
    product = price.product;
    const then = scenarios.flatMap(({ prices }) => {
      const own = prices[at];
      if (own === undefined) return ['', ''];
      return [
        `${share(own.held.margin)}${own.held.underFloor ? ' ▲' : ''}`,
        own.kept === null ? 'none' : money(own.kept.asking),
      ];
    });
    return [
      ...group,
      { cells: [price.channel, money(price.today.asking), share(price.today.margin), ...then] },
    ];
  });
}

/** Profit of the month today and in each scenario, with today's prices and with those that keep the margins. */
function months({ settings }: BookReport, { scenarios }: WhatIfReport): string {
  const shown = shownIn(settings);
  const known = scenarios.flatMap(({ name, month }) => (month === null ? [] : [{ name, month }]));
  const worst = extreme(known, ({ month }) => month.held.profit, 'least');
  const today = known[0]?.month.today;
  if (worst === undefined || today === undefined) return '';
  return chartFigure({
    title: `At today’s prices ${worst.name} leaves the month ${shown.money(worst.month.held.profit)} ${settings.currency}, today ${shown.money(today.profit)}`,
    key: keyList([
      item('<rect x="7.5" width="3" height="12" fill="var(--ink)"/>', 'today'),
      item('<circle cx="9" cy="6" r="4.5" fill="var(--accent)"/>', 'scenario at today’s asking prices'),
      item(
        '<path d="M9 .5L14.5 6L9 11.5L3.5 6Z" fill="var(--good)"/>',
        'scenario with prices that keep the margins',
      ),
    ]),
    kind: 'Profit of the month in each scenario: today, at today’s asking prices, and with prices that keep the margins',
    draw: (size) =>
      dotsChart(
        {
          rows: known.map(({ name, month }) => ({
            label: name,
            words: shown.money(month.held.profit),
            dots: [
              { figure: today.profit, mark: 'tick', colour: 'ink' },
              { figure: month.kept.profit, mark: 'diamond', colour: 'good' },
              { figure: month.held.profit, mark: 'circle', colour: 'accent' },
            ],
          })),
          axisName: `Profit of the month, ${settings.currency}`,
          axis: shown.axis,
          rowPx: 30,
          leftPx: { wide: 160, narrow: 112 },
          seeThrough: false,
          fromZero: true,
        },
        size,
      ),
    table: {
      caption: `Profit of the month, ${settings.currency}; today ${shown.money(today.profit)}`,
      columns: [
        words('Scenario'),
        figures('At today’s prices'),
        figures('With prices that keep the margins'),
      ],
      rows: known.map(({ name, month }) => ({
        cells: [name, shown.money(month.held.profit), shown.money(month.kept.profit)],
      })),
    },
  });
}
