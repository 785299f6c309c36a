import {
  convertLength,
  type FitReport,
  type ReportedFit,
  type Settings,
  showNumber,
} from '../../engine/index.ts';
import { chanceOfShort } from './chanceOfShort.ts';
import { count, showProblems } from './showProblems.ts';
import type { Style } from './style.ts';
import { table, textWidth } from './table.ts';

export interface ShowFitHow {
  readonly width: number;
  readonly style: Style;
  readonly settings: Settings;
  /** Words instead of a drawing, for screen readers and pipes. */
  readonly plain: boolean;
  /** The book as the user named it, for what to do next. */
  readonly book: string;
  /** The program as it was called. */
  readonly command: string;
}

const names: Readonly<Record<string, string>> = {
  pitch_ratio: 'pitch',
  layered_pitch_ratio: 'pitch under more layers',
  angle: 'angle',
  measured_take_up: 'take-up of one working cord',
};

/** "bar: pitch 1.171 +/- 0.014 cord diameters, from 5 samples", as terminal and picture say it. */
export function fitTitle(fit: ReportedFit, settings: Settings): string {
  const figure = (value: number): string => showNumber(value, digitsOf(fit), settings);
  return `${fit.weave}: ${names[fit.parameter] ?? fit.parameter} ${figure(fit.value)} +/- ${figure(fit.standardError)} ${fit.unit}, from ${count(fit.samples.length, 'sample')}`;
}

function digitsOf(fit: ReportedFit): number {
  return fit.unit === 'degrees' ? 2 : 3;
}

/** Each fit with its samples, its residuals and what it means for the next cut; then what to do next. */
export function showFit(report: FitReport, how: ShowFitHow): string {
  const parts = report.fits.map((fit) => oneFit(fit, report, how));
  for (const { weave, value, standardError, count: samples } of report.coreTakeUps) {
    const figure = (each: number): string => showNumber(each, 3, how.settings);
    parts.push(
      `${weave}: core take-up ${figure(value)} +/- ${figure(standardError)}, from ${count(samples, 'sample')}.\n`,
    );
  }
  if (report.leftOut.length > 0) parts.push(`Left out: ${report.leftOut.join(', ')}.\n`);
  if (report.problems.length > 0) parts.push(showProblems(report.problems, how.style));
  parts.push(
    `+/- is one standard error. Reading error of the tape: ${millimetres(report.readingErrorMm, how)} (reading_error in book.yaml).\n`,
    lastWord(report, how),
  );
  return parts.join('\n');
}

function oneFit(fit: ReportedFit, report: FitReport, how: ShowFitHow): string {
  const { settings, style } = how;
  const unit = settings.lengthUnit;
  const figure = (value: number): string => showNumber(value, digitsOf(fit), settings);
  const now = fit.bookValue === null ? 'the book has none yet' : `the book has ${figure(fit.bookValue)}`;
  const counted = fit.samples.some((each) => each.valueByCount !== null);
  const columns = [
    'Sample',
    `Woven, ${unit}`,
    `Cord took, ${unit}`,
    'Take-up',
    'Fitted',
    'Took more',
    ...(fit.unit === 'cord per length' ? [] : [fit.unit === 'degrees' ? 'Angle' : 'Pitch by cord']),
    ...(counted ? ['Pitch by count'] : []),
  ].map((heading, at) => ({ heading, align: at === 0 ? ('left' as const) : ('right' as const) }));
  const rows = fit.samples.map((each) => [
    each.outlier ? `${each.sample} (outlier)` : each.sample,
    inUnit(each.wovenMm, how),
    inUnit(each.usedPerCordMm, how),
    showNumber(each.takeUp, 3, settings),
    showNumber(each.fittedTakeUp, 3, settings),
    percent(each.residualRatio, settings),
    ...(fit.unit === 'cord per length' ? [] : [figure(each.valueByCord)]),
    ...(counted ? [each.valueByCount === null ? '' : figure(each.valueByCount)] : []),
  ]);
  return [
    style.heading(`${fitTitle(fit, settings)}; ${now}.`),
    `With 95 % chance between ${figure(fit.low95)} and ${figure(fit.high95)}.`,
    '',
    table(columns, rows, how.width, style),
    ...(how.plain || fit.samples.length === 1 ? [] : [plot(fit, settings)]),
    ...spareLines(fit, report, how),
  ].join('\n');
}

/** Half as many marks to the left and to the right of the fit. */
const plotHalf = 20;

/** Residuals as marks on a line: the fit in the middle, more cord to the right. */
function plot(fit: ReportedFit, settings: Settings): string {
  const reach = Math.max(
    0.01,
    ...fit.samples.map((each) => Math.ceil(Math.abs(each.residualRatio) * 100) / 100),
  );
  const widest = Math.max(...fit.samples.map((each) => textWidth(each.sample)));
  const indent = ' '.repeat(widest + 2);
  const end = `${showNumber(reach * 100, 0, settings)} %`;
  const lines = fit.samples.map((each) => {
    const marks: string[] = Array.from({ length: 2 * plotHalf + 1 }, (_, at) =>
      at === plotHalf ? '|' : '.',
    );
    marks[plotHalf + Math.round((each.residualRatio / reach) * plotHalf)] = each.outlier ? 'X' : 'o';
    return `${each.sample}${' '.repeat(widest - textWidth(each.sample))}  ${marks.join('')}`;
  });
  const scale = `-${end}${'fit'.padStart(plotHalf + 1 - end.length)}${`+${end}`.padStart(plotHalf - 1)}`;
  return `${indent}Cord beyond the fitted amount\n${lines.join('\n')}\n${indent}${scale}\n`;
}

function spareLines(fit: ReportedFit, report: FitReport, how: ShowFitHow): string[] {
  const { settings } = how;
  const share = (ratio: number): string => `${showNumber(100 * ratio, 1, settings)} %`;
  const lines = [
    fit.spreadFrom === 'assumed'
      ? `One sample cannot show how far pieces differ: ${share(fit.spreadRatio)} is assumed. Measure a second and a third.`
      : `Pieces differ by ${share(fit.spreadRatio)} in cord (standard deviation).`,
    `For ${chanceOfShort(report.chanceOfShort, settings)} to run short, cut ${share(fit.extraRatio)} more than the fitted amount;`,
    `on the average ${share(fit.expectedOffcutRatio)} is left over, and ${share(fit.expectedLossRatio)} is lost in pieces that ran short.`,
    ...(fit.samples.length === 2 ? ['Two samples say little of that: a third makes it much smaller.'] : []),
    '',
  ];
  if (fit.products.length === 0) return lines;
  const columns = [
    'Product',
    `Woven, ${settings.lengthUnit}`,
    `Cut more, ${settings.lengthUnit}`,
    `Left over, ${settings.lengthUnit}`,
    `Costs, ${report.currency}`,
  ].map((heading, at) => ({ heading, align: at === 0 ? ('left' as const) : ('right' as const) }));
  const shown = fit.products.slice(0, 8);
  const rows = shown.map((each) => [
    each.product,
    inUnit(each.wovenLengthMm, how),
    inUnit(each.extraPerCordMm, how),
    inUnit(each.expectedOffcutMm, how),
    showNumber(each.expectedOffcutCost, settings.currencyDigits, settings),
  ]);
  const more = fit.products.length - shown.length;
  return [
    ...lines,
    table(columns, rows, how.width, how.style).trimEnd(),
    ...(more > 0 ? [`and ${count(more, 'product')} more (--json has all)`] : []),
    '',
  ];
}

function lastWord(report: FitReport, how: ShowFitHow): string {
  if (report.written.length === 0)
    return `Nothing was written. Next: ${how.command} fit ${how.book} --write   puts the fitted figures and their spread into weaves.csv\n`;
  const lines = report.written.map(
    ({ weave, column, before, after }) =>
      `  ${weave}, ${column}: ${before || 'blank'} -> ${after || 'blank'}`,
  );
  return `Written to weaves.csv:\n${lines.join('\n')}\nNext: ${how.command} check ${how.book}\n`;
}

function percent(ratio: number, settings: Settings): string {
  const text = showNumber(100 * ratio, 1, settings);
  return `${ratio > 0 && !/^[0.,]+$/.test(text) ? '+' : ''}${text} %`;
}

function inUnit(mm: number, how: ShowFitHow): string {
  return showNumber(convertLength(mm, 'mm', how.settings.lengthUnit), 2, how.settings);
}

function millimetres(mm: number, how: ShowFitHow): string {
  return `${showNumber(mm, 1, how.settings)} mm`;
}
