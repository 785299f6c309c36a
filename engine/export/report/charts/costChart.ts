import { axisRoomPx, type ChartSize, figureAxis, rowAxis, wordsBeside } from './axes.ts';
import { chartColours } from './chartColours.ts';
import type { ChartOption } from './chartOption.ts';
import type { Shown } from './ladderChart.ts';
import { fitted, roomOf } from './letters.ts';

const rowPx = 21;

/** Unit cost of one product by its parts; money in the book's currency. */
export interface CostBar {
  readonly product: string;
  readonly cords: number;
  readonly parts: number;
  readonly labour: number;
  readonly overhead: number;
  readonly unitCost: number;
}

/** The parts of a cost in the order in which they are stacked, with their colours. */
export const costParts = [
  { id: 'cords', name: 'Cord and webbing', colour: 'accent' },
  { id: 'parts', name: 'Parts', colour: 'tint' },
  { id: 'labour', name: 'Labour', colour: 'slate' },
  { id: 'overhead', name: 'Overhead', colour: 'sand' },
] as const;

/** A bar for each product, stacked of what its unit cost is made of; the unit cost stands at its end. */
export function costChart(
  bars: readonly CostBar[],
  shown: Shown,
  size: ChartSize,
): { readonly option: ChartOption; readonly heightPx: number } {
  const left = size.name === 'wide' ? 150 : 98;
  const longest = Math.max(...bars.map(({ unitCost }) => roomOf(shown.money(unitCost))));
  const reach = {
    plotPx: size.widthPx - left - longest - 16,
    least: 0,
    most: Math.max(...bars.map(({ unitCost }) => unitCost)),
  };
  return {
    heightPx: bars.length * rowPx + axisRoomPx + 6,
    option: {
      grid: { left, right: longest + 16, top: 6, bottom: axisRoomPx },
      xAxis: figureAxis(`Unit cost, ${shown.currency}`, shown.axis, reach, { min: 0 }),
      yAxis: rowAxis(
        bars.map(({ product }) => fitted(product, left - 12)),
        left,
      ),
      series: [
        ...costParts.map(({ id, colour }) => ({
          type: 'bar',
          silent: true,
          stack: 'cost',
          barWidth: 13,
          data: bars.map((bar) => bar[id]),
          // A thin gap between neighbours, so that they are told apart without colour.
          itemStyle: { color: chartColours[colour], borderColor: chartColours.paper, borderWidth: 1 },
        })),
        {
          type: 'scatter',
          silent: true,
          symbolSize: 1,
          itemStyle: { color: 'transparent' },
          data: bars.map(({ unitCost }, at) => ({
            value: [unitCost, at],
            label: { formatter: shown.money(unitCost) },
          })),
          label: wordsBeside('right'),
        },
      ],
    },
  };
}
