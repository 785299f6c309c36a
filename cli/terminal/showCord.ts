import {
  type CordCut,
  type CordReport,
  convertLength,
  type Settings,
  showNumber,
} from '../../engine/index.ts';
import { chanceOfShort } from './chanceOfShort.ts';
import { count } from './showProblems.ts';
import type { Style } from './style.ts';
import { type TableColumn, table, wrap } from './table.ts';

export interface ShowCordHow {
  readonly width: number;
  readonly style: Style;
  readonly settings: Settings;
}

interface CutColumn extends TableColumn {
  readonly text: (cut: CordCut) => string;
}

/** The answer first, then what to cut, then how it was reached, term by term. */
export function showCord(report: CordReport, how: ShowCordHow): string {
  const unit = how.settings.lengthUnit;
  const inUnit = (mm: number): string => showNumber(convertLength(mm, 'mm', unit), 2, how.settings);
  const long = (mm: number): string =>
    `${showNumber(convertLength(mm, 'mm', how.settings.cordUnit), 2, how.settings)} ${how.settings.cordUnit}`;
  const number = (value: number): string => showNumber(value, 3, how.settings);

  const core = report.coreStrands > 0 ? ` over ${count(report.coreStrands, 'core strand')}` : '';
  const layers = report.layers > 1 ? `, ${report.layers} layers` : '';
  const lines = [
    `${inUnit(report.wovenLengthMm)} ${unit} of ${report.weave}${layers}${core} holds ${inUnit(report.totalMm)} ${unit} of cord (${long(report.totalMm)}), ${report.numbers}.`,
    ...closing(report, inUnit, unit, how),
    `Cut ${report.colours.map((each) => `${long(each.cutMm)} of ${each.colour}`).join(', ')}.`,
    ...report.unused.map(
      ({ role, colour }) => `Nothing is cut of ${colour}: this weave has no ${role} cord.`,
    ),
    '',
  ];
  const optional = (heading: string, of: (cut: CordCut) => number): CutColumn[] =>
    report.cuts.some((cut) => of(cut) > 0)
      ? [{ heading, align: 'right', text: (cut) => inUnit(of(cut)) }]
      : [];
  const columns: CutColumn[] = [
    { heading: 'Role', align: 'left', text: (cut) => cut.role },
    { heading: 'Cord', align: 'left', text: (cut) => cut.colour },
    { heading: 'Cords', align: 'right', text: (cut) => String(cut.pieces) },
    { heading: 'Strands in each', align: 'right', text: (cut) => String(cut.strandsPerPiece) },
    { heading: 'Take-up', align: 'right', text: (cut) => number(cut.takeUp) },
    ...optional(`Woven, ${unit}`, (cut) => cut.wovenMm),
    ...optional('Hitches', (cut) => cut.hitchedMm),
    ...optional('Joins', (cut) => cut.joinedMm),
    ...optional('Extra', (cut) => cut.extraMm),
    ...optional('Spare', (cut) => cut.spareMm),
    ...optional('Trim', (cut) => cut.trimMm),
    { heading: `Cut each, ${unit}`, align: 'right', text: (cut) => inUnit(cut.cutMm) },
  ];
  const rows = report.cuts.map((cut) => columns.map((column) => column.text(cut)));
  lines.push(table(columns, rows, how.width, how.style), how.style.heading('Working'));
  lines.push(
    ...working(report, number, how),
    '',
    'Woven = strands x take-up x woven length. Cut = woven + hitches + joins + extra + spare',
    '+ trim, rounded up to the cutting step.',
    'Flame and melt: work with air and water near, and let ends cool.',
  );
  return `${lines.join('\n')}\n`;
}

/** How long the piece is that closes round a measure. */
function closing(
  report: CordReport,
  inUnit: (mm: number) => string,
  unit: string,
  how: ShowCordHow,
): string[] {
  if (report.closing === null) return [];
  const { measureMm, easeMm, thicknessMm, hardwareMm, finishedMm } = report.closing;
  const ease = easeMm > 0 ? ` with ${inUnit(easeMm)} ${unit} of ease` : '';
  const hardware = hardwareMm > 0 ? `, of which hardware takes ${inUnit(hardwareMm)} ${unit}` : '';
  const thickness = `pi x its thickness of ${showNumber(thicknessMm, 1, how.settings)} mm`;
  return [
    `It closes round ${inUnit(measureMm)} ${unit}${ease}; flat it is ${inUnit(finishedMm)} ${unit} long${hardware}.`,
    `Flat length = measure + ease + ${thickness}, by which it is shorter inside.`,
  ];
}

/** What lies on the face of a bar, as STRIPE_CORD and BAND_CORD reckon it. */
const faceWorking: Readonly<Record<string, string>> = {
  stripe: 'The stripe climbs over one half knot and dips under the next, sqrt(c^2 + 1) / c per length',
  band: 'A band crosses the face, w wide, every m half knots and turns round a side loop, (sqrt(w^2 + (m c)^2) + pi) / (m c) per length, m being two unless a book says otherwise',
};

function working(report: CordReport, number: (value: number) => string, how: ShowCordHow): string[] {
  const lines: string[] = [];
  if (report.coreStrands > 0)
    lines.push(`  Core: ${count(report.coreStrands, 'strand')} x take-up ${number(report.coreTakeUp)}.`);
  if (report.pitchRatio !== null) {
    lines.push(
      `  Pitch: ${number(report.pitchRatio)} cord diameters (${showNumber(report.diameterMm, 2, how.settings)} mm each), from the weave.`,
    );
  }
  if (report.angleDegrees !== null)
    lines.push(
      `  Angle: ${showNumber(report.angleDegrees, 1, how.settings)} degrees to the axis, from the weave.`,
    );
  lines.push(...wrap(report.working, 78).map((line) => `  ${line}`));
  const layers = report.takeUpByLayer.map((each, at) => `layer ${at + 1}: ${number(each)}`);
  if (report.takeUpByGeometry > 0) {
    const sum = layers.length > 1 ? `${layers.join(' + ')} = ` : '';
    lines.push(`  Take-up by geometry: ${sum}${number(report.takeUpByGeometry)} of cord per length woven.`);
  }
  if (report.halfKnots !== null) {
    const { count: knots, knottedMm } = report.halfKnots;
    const each = report.layers > 1 ? ' in each layer' : '';
    const made = showNumber(convertLength(knottedMm, 'mm', how.settings.lengthUnit), 2, how.settings);
    const text = `Half knots to tie: ${knots}${each}, so that both ends finish alike; they make ${made} ${how.settings.lengthUnit}. Cord is reckoned for the woven length above.`;
    lines.push(...wrap(text, 78).map((line) => `  ${line}`));
  }
  for (const { role, takeUp } of report.cuts) {
    const says = faceWorking[role];
    if (says !== undefined) lines.push(...wrap(`${says}: ${number(takeUp)}.`, 78).map((line) => `  ${line}`));
  }
  if (report.takeUp !== report.takeUpByGeometry) {
    const instead = report.takeUpByGeometry > 0 ? 'Used instead' : 'Used';
    lines.push(`  ${instead}: ${number(report.takeUp)}, measured.`);
  }
  if (report.extraRatio > 0) {
    const share = (ratio: number): string => `${showNumber(100 * ratio, 1, how.settings)} %`;
    const from = report.spreadFrom === 'assumed' ? 'assumed' : 'from samples';
    const extra = `Extra for ${chanceOfShort(report.chanceOfShort, how.settings)} to run short: ${share(report.extraRatio)} of woven, as a new piece is off by ${share(report.spreadRatio)} (standard deviation, ${from}).`;
    lines.push(...wrap(extra, 78).map((line) => `  ${line}`));
  }
  return lines;
}
