import { BarChart, CustomChart, ScatterChart } from 'echarts/charts';
import { GridComponent } from 'echarts/components';
import * as echarts from 'echarts/core';
import { SVGRenderer } from 'echarts/renderers';
import { escaped } from '../../escaped.ts';
import { chartColours, variableOf } from './chartColours.ts';
import type { ChartOption } from './chartOption.ts';
import { letterPx } from './letters.ts';

echarts.use([BarChart, CustomChart, ScatterChart, GridComponent, SVGRenderer]);

/** A picture and how it is told to whoever does not see it. */
export interface Drawing {
  readonly option: ChartOption;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly cssClass: string;
  /** Names the picture: what it shows and what is to be seen. */
  readonly alternative: string;
}

/**
 * Draws a chart as SVG that stands in the page: colours by the page's own names, so that a dark page and paper
 * change them; no styles, scripts or links in it.
 */
export function drawChart({ option, widthPx, heightPx, cssClass, alternative }: Drawing): string {
  const chart = echarts.init(null, null, { renderer: 'svg', ssr: true, width: widthPx, height: heightPx });
  try {
    chart.setOption({
      animation: false,
      textStyle: { fontSize: letterPx, color: chartColours.ink },
      ...option,
    });
    return cleaned(chart.renderToSVGString(), cssClass, alternative);
  } finally {
    // A chart that is not given back keeps its clock going, and the program with it.
    chart.dispose();
  }
}

/** The library's own marks, rules for the pointer and name spaces, which a page does not need. */
function cleaned(svg: string, cssClass: string, alternative: string): string {
  const opening = /^<svg width="(\d+)" height="(\d+)"[^>]*>/.exec(svg);
  if (opening === null) throw new Error('The chart library has changed how it writes pictures');
  const [all, width, height] = opening;
  const body = svg
    .slice(all.length)
    .replace(/<style\s*>[\s\S]*?<\/style>/g, '')
    .replace(/ (?:class|pointer-events|ecmeta_[a-z_]+|xml:space|stroke-miterlimit)="[^"]*"/g, '')
    .replace(/ style="([^"]*)"/g, (_, style: string) => attributesOf(style))
    .replace(
      / (fill|stroke)="([^"]*)"/g,
      (_, name: string, colour: string) => ` ${name}="${variableOf(colour)}"`,
    )
    .replace(/<rect width="\d+" height="\d+" x="0" y="0" fill="none"><\/rect>\n?/, '')
    .replace(/\n+/g, '\n');
  return `<svg class="${cssClass}" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escaped(alternative)}">${body}`;
}

/** A page that forbids styles in its elements takes these as attributes. The family is the page's own. */
function attributesOf(style: string): string {
  const size = /(\d+(?:\.\d+)?)px/.exec(style)?.[1] ?? letterPx;
  const bold = /font-weight:\s*(\d+|bold)|\b(600|700|bold)\b/.exec(style);
  return ` font-size="${size}"${bold === null ? '' : ' font-weight="600"'}`;
}
