import type { ChannelPrice, ProductPrice } from '../../answers/priceReport.ts';
import { axisRoomPx, type ChartSize, figureAxis, headingMark, rowAxis, wordsBeside } from './axes.ts';
import { chartColours } from './chartColours.ts';
import type { ChartOption } from './chartOption.ts';
import { fitted, roomOf } from './letters.ts';

const rowPx = 19;

/** Amounts as the book writes them. */
export interface Shown {
  readonly currency: string;
  readonly money: (value: number) => string;
  /** A round figure of an axis. */
  readonly axis: (value: number) => string;
  readonly share: (ratio: number) => string;
}

interface Row {
  readonly label: string;
  readonly price?: ChannelPrice;
}

/** Floor, target and asking price of some products, a row for each channel under the product's name. */
export function ladderChart(
  products: readonly ProductPrice[],
  shown: Shown,
  size: ChartSize,
): { readonly option: ChartOption; readonly heightPx: number } {
  const wide = size.name === 'wide';
  const left = wide ? 150 : 98;
  const rows = products.flatMap((product): Row[] => [
    { label: headingMark + fitted(product.product, left - 10) },
    ...product.channels.map((price) => ({ label: fitted(price.channel, left - 12), price })),
  ]);
  const priced = rows.flatMap(({ price }, at) => (price === undefined ? [] : [{ price, at }]));
  // Words begin at the last mark of their row, and may begin at the end of the plot.
  const right = 24 + Math.max(...priced.map(({ price }) => roomOf(words(price, shown, wide))));
  const most = Math.max(...priced.map(({ price }) => Math.max(price.asking, price.target, price.floor)));
  const reach = { plotPx: size.widthPx - left - right, least: 0, most };
  const marks = (
    some: readonly { price: ChannelPrice; at: number }[],
    of: (price: ChannelPrice) => number,
    symbol: string,
    symbolSize: number | readonly [number, number],
    color: string,
  ): ChartOption => ({
    type: 'scatter',
    silent: true,
    symbol,
    symbolSize,
    itemStyle: { color, opacity: 1 },
    data: some.map(({ price, at }) => [of(price), at]),
  });
  const under = priced.filter(({ price }) => price.underFloor);
  const byHand = priced.filter(({ price }) => price.setByHand && !price.underFloor);
  const plain = priced.filter(({ price }) => !price.setByHand && !price.underFloor);
  const asking = (price: ChannelPrice): number => price.asking;
  return {
    heightPx: rows.length * rowPx + axisRoomPx + 6,
    option: {
      grid: { left, right, top: 6, bottom: axisRoomPx },
      xAxis: figureAxis(`Price on the ticket, ${shown.currency}`, shown.axis, reach, { min: 0 }),
      yAxis: rowAxis(
        rows.map(({ label }) => label),
        left,
      ),
      series: [
        {
          type: 'custom',
          silent: true,
          data: priced.map(({ price, at }) => [price.floor, price.target, at]),
          encode: { x: [0, 1], y: 2 },
          renderItem: rangeBar,
        },
        marks(priced, (price) => price.floor, 'rect', [3, 13], chartColours.ink),
        marks(priced, (price) => price.target, 'rect', [3, 13], chartColours.accent),
        marks(plain, asking, 'circle', 8, chartColours.accent),
        marks(byHand, asking, 'diamond', 11, chartColours.slate),
        marks(under, asking, 'triangle', 11, chartColours.bad),
        {
          type: 'scatter',
          silent: true,
          symbol: 'circle',
          symbolSize: 8,
          itemStyle: { color: 'transparent' },
          data: priced.map(({ price, at }) => ({
            value: [Math.max(price.asking, price.target, price.floor), at],
            label: { formatter: words(price, shown, wide) },
          })),
          label: wordsBeside('right'),
        },
      ],
    },
  };
}

/** The asking price, and in words what its mark says. */
function words(price: ChannelPrice, { money }: Shown, wide: boolean): string {
  const mark = price.underFloor
    ? wide
      ? ', under its floor'
      : ' ▲'
    : price.setByHand
      ? wide
        ? ', set by hand'
        : ' ◆'
      : '';
  return `${money(price.asking)}${mark}`;
}

interface Drawer {
  value(dimension: number): number;
  coord(point: readonly [number, number]): readonly [number, number];
}

/** From the first figure to the second, on the row of the third. */
function rangeBar(_: unknown, api: Drawer): ChartOption {
  const row = api.value(2);
  const [from, y] = api.coord([api.value(0), row]);
  const [to] = api.coord([api.value(1), row]);
  return {
    type: 'rect',
    shape: { x: Math.min(from, to), y: y - 3, width: Math.abs(to - from), height: 6 },
    style: { fill: chartColours.tint },
  };
}
