import { convertLength, type LengthUnit } from '../../book/measures/measure.ts';
import { isFailure, type Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';

/** One piece of cord to cut (or several alike). All lengths in millimetres. */
export interface CordCut {
  readonly role: string;
  readonly colour: string;
  readonly pieces: number;
  readonly strandsPerPiece: number;
  readonly takeUp: number;
  readonly wovenMm: number;
  readonly hitchedMm: number;
  readonly joinedMm: number;
  readonly inPieceMm: number;
  /** Against running short. */
  readonly extraMm: number;
  readonly spareMm: number;
  readonly trimMm: number;
  /** Length to cut for each of the pieces, rounded up to the cutting step. */
  readonly cutMm: number;
}

/** What `cord --json` prints. */
export interface CordReport {
  readonly weave: string;
  readonly family: string;
  readonly layers: number;
  readonly coreStrands: number;
  readonly diameterMm: number;
  readonly wovenLengthMm: number;
  /** Where the piece closes round a body measure: that, and how its finished length comes from it. */
  readonly closing: {
    readonly measureMm: number;
    readonly easeMm: number;
    readonly thicknessMm: number;
    readonly hardwareMm: number;
    readonly finishedMm: number;
  } | null;
  /** Half knots to tie in each layer, an even number, and the length that they make; null where none are tied. */
  readonly halfKnots: { readonly count: number; readonly knottedMm: number } | null;
  /** Pitch of a knot, turn or loop in cord diameters; null where the weave has none. */
  readonly pitchRatio: number | null;
  readonly angleDegrees: number | null;
  /** How the family takes up cord, in words or as its formula. */
  readonly working: string;
  /** Cord that one working cord takes per length woven, all layers together. */
  readonly takeUp: number;
  readonly takeUpByGeometry: number;
  /** For a bar: what each layer adds to the take-up by geometry, from the first. */
  readonly takeUpByLayer: readonly number[];
  readonly coreTakeUp: number;
  readonly numbers: 'measured' | 'estimated';
  /** Share of pieces that may run short, and the extra that it takes, as a share of the woven cord. */
  readonly chanceOfShort: number;
  readonly extraRatio: number;
  /** How far a new piece is off in cord (standard deviation), as a share. */
  readonly spreadRatio: number;
  readonly spreadFrom: 'samples' | 'assumed';
  /** All cord that stays in the piece, without spare and trim. */
  readonly totalMm: number;
  /** All cord to cut, colour by colour. */
  readonly colours: readonly { readonly colour: string; readonly cutMm: number }[];
  readonly cuts: readonly CordCut[];
  /** Colours that were given for a role which this weave does not have. */
  readonly unused: readonly { readonly role: string; readonly colour: string }[];
}

/** Picks the figures of a one-off cord question out of its calculated plan; lengths become millimetres. */
export function cordReport(plan: Plan, values: Values): CordReport {
  const { lengthUnit } = plan.settings;
  const rowsOf = (sheet: string): number => plan.sheets.find((each) => each.id === sheet)?.rowCount ?? 0;
  const text = (sheet: string, column: string, row = 0): string => {
    const value = values.get(sheet, column, row);
    return value === null || isFailure(value) ? '' : String(value);
  };
  const mm = (sheet: string, column: string, row = 0, unit: LengthUnit = lengthUnit): number =>
    convertLength(values.number(sheet, column, row), unit, 'mm');
  const colourOf = new Map(
    Array.from({ length: rowsOf('materials') }, (_, row) => [
      text('materials', 'material', row),
      text('materials', 'colour', row),
    ]),
  );
  const rowOf = (sheet: string, column: string, name: string): number =>
    Array.from({ length: rowsOf(sheet) }, (_, row) => row).find((row) => text(sheet, column, row) === name) ??
    0;
  const weave = text('products', 'weave');
  const weaveRow = rowOf('weaves', 'weave', weave);
  const family = text('weaves', 'family', weaveRow);
  const familyRow = rowOf('families', 'family', family);
  const allCuts = Array.from(
    { length: rowsOf('cuts') },
    (_, row): CordCut => ({
      role: text('cuts', 'role', row),
      colour: colourOf.get(text('cuts', 'cord', row)) ?? '',
      pieces: values.number('cuts', 'pieces', row),
      strandsPerPiece: values.number('cuts', 'strands', row),
      takeUp: values.number('cuts', 'take_up', row),
      wovenMm: mm('cuts', 'woven', row),
      hitchedMm: mm('cuts', 'hitched', row),
      joinedMm: mm('cuts', 'joined', row),
      inPieceMm: mm('cuts', 'in_piece', row),
      extraMm: mm('cuts', 'extra', row),
      spareMm: mm('cuts', 'spare', row),
      trimMm: mm('cuts', 'trim', row),
      cutMm: mm('cuts', 'cut_length', row),
    }),
  );
  const cuts = allCuts.filter((cut) => cut.pieces > 0);
  // A role without a colour of its own follows the over cord; only a colour that was asked for is missed.
  const own: Readonly<Record<string, string>> = { under: 'under_cord', core: 'core_cord' };
  const unused = allCuts.filter(
    ({ role, pieces }) => pieces === 0 && text('products', own[role] ?? 'product') !== '',
  );
  const figure = (column: string): number | null => values.number('geometry', column, 0) || null;
  return {
    weave,
    family,
    layers: values.number('products', 'layers', 0),
    coreStrands: values.number('products', 'core', 0),
    diameterMm: values.number('materials', 'diameter', 0),
    wovenLengthMm: mm('products', 'woven_length'),
    closing:
      values.number('products', 'body_measure', 0) > 0
        ? {
            measureMm: mm('products', 'body_measure'),
            easeMm: mm('products', 'ease'),
            thicknessMm: values.number('products', 'thickness', 0),
            hardwareMm: mm('products', 'hardware_length'),
            finishedMm: mm('products', 'finished'),
          }
        : null,
    halfKnots:
      values.number('geometry', 'half_knots', 0) > 0
        ? {
            count: values.number('geometry', 'half_knots', 0),
            knottedMm: mm('geometry', 'knotted_length'),
          }
        : null,
    pitchRatio: figure('pitch_ratio'),
    angleDegrees: figure('angle'),
    working:
      text('families', 'working', familyRow) || `By its family: ${text('families', 'take_up', familyRow)}.`,
    takeUp: values.number('products', 'take_up', 0),
    takeUpByGeometry: values.number('geometry', 'take_up', 0),
    takeUpByLayer:
      text('families', 'knotted_bar', familyRow) === 'yes'
        ? Array.from({ length: values.number('products', 'layers', 0) }, (_, row) =>
            values.number('layers', 'take_up', row),
          )
        : [],
    coreTakeUp: values.number('weaves', 'core_take_up', weaveRow),
    numbers: text('products', 'numbers') === 'measured' ? 'measured' : 'estimated',
    chanceOfShort: values.number('rates', 'chance_of_short_percent', 0),
    extraRatio: values.number('products', 'extra_share', 0),
    spreadRatio: values.number('products', 'spread', 0),
    spreadFrom:
      values.number('products', 'spread', 0) === values.number('rates', 'unsampled_spread', 0)
        ? 'assumed'
        : 'samples',
    totalMm: mm('costs', 'cord_in_piece'),
    colours: Array.from({ length: rowsOf('colours') }, (_, row) => ({
      colour: colourOf.get(text('colours', 'material', row)) ?? '',
      cutMm: mm('colours', 'cut_length', row),
    })).filter(({ cutMm }) => cutMm > 0),
    cuts,
    unused: unused.map(({ role, colour }) => ({ role, colour })),
  };
}
