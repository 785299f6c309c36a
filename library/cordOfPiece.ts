import { pieceSheets, sheets } from 'sennit:templates';
import {
  type CordReport,
  cordDefaults,
  cordReport,
  hasErrors,
  inQuestionWords,
  oneOffCord,
  type Problem,
  parseMeasure,
  weaveNames as weavesOf,
} from '../engine/index.ts';
import { type Answer, answer, refused } from './answer.ts';
import { shippedTables } from './bookTexts.ts';
import { asked } from './question.ts';

/** What a cord does in a piece. Every weave has an over cord; which others it has is its own. */
export type CordRole = 'core' | 'over' | 'under' | 'upper over' | 'upper under' | 'stripe' | 'band';

/** One piece, and how it is cut. Measures are texts with their unit: `7 in`, `7 1/2 in`, `18 cm`, `4 mm`. */
export interface Piece {
  /** Woven length; either this or `measure`. */
  readonly length?: string;
  /** What the piece closes round, such as a wrist of `6 1/2 in`. */
  readonly measure?: string;
  /** With `measure`: slack between body and piece; none unless given. */
  readonly ease?: string;
  /** With `measure`: what buckle and rings take of the length; nothing unless given. */
  readonly hardware?: string;
  /** With `measure`: of the finished piece, where it was measured. */
  readonly thickness?: string;
  /** One of `weaveNames()`; `bar` unless given. */
  readonly weave?: string;
  /** Passes of a bar, one over the other; 1 unless given. */
  readonly layers?: number;
  /** Core strands side by side; as the weave has them unless given. */
  readonly coreStrands?: number;
  /** Of the cord; `4 mm` unless given. */
  readonly diameter?: string;
  /** Colours by what the cord does; a cord without one has that of the over cord. */
  readonly colours?: Readonly<Partial<Record<CordRole, string>>>;
  /** Hitches of the core on hardware; none unless given. */
  readonly hitches?: number;
  /** Diameter of the bar that is hitched on; `4 mm` unless given. */
  readonly bar?: string;
  /** Measured: cord that one working cord takes per length woven. */
  readonly takeUp?: number;
  /** Cuts are rounded up to this; 1 in or 1 cm unless given. */
  readonly cutStep?: string;
  /** Left at each working end to finish by hand; 12 in or 30 cm unless given. */
  readonly spare?: string;
  /** Trimmed and melted at each end; 1/8 in or 3 mm unless given. */
  readonly trim?: string;
  /** Pieces in a hundred that may run short of cord; 2 unless given. */
  readonly chanceOfShortPercent?: number;
}

/** Names of the shipped weaves. */
export function weaveNames(): readonly string[] {
  return weavesOf(shippedTables);
}

/**
 * What cord one piece takes and what to cut for it; no book is needed.
 *
 * @returns what `sennit cord --json` prints: lengths in millimetres
 */
export function cordOfPiece(piece: Piece): Answer<CordReport> {
  const unclear = lengthProblems(piece);
  if (unclear.length > 0) return refused(unclear);
  const text = (figure: number | string | undefined): string => String(figure ?? '');
  const { colours = {} } = piece;
  const unit = parseMeasure(piece.length ?? piece.measure ?? '', 'point')?.unit ?? 'in';
  const rates = new Map(
    Object.entries({
      cut_step: text(piece.cutStep),
      spare_per_working_end: text(piece.spare),
      trim_per_end: text(piece.trim),
      chance_of_short_percent: text(piece.chanceOfShortPercent),
    }).filter(([, value]) => value !== ''),
  );
  const { problems, plan, values } = oneOffCord(
    {
      weave: piece.weave ?? cordDefaults.weave,
      layers: text(piece.layers ?? cordDefaults.layers),
      core: text(piece.coreStrands),
      length: text(piece.length),
      measure: text(piece.measure),
      ease: text(piece.ease),
      hardware: text(piece.hardware),
      thickness: text(piece.thickness),
      diameter: text(piece.diameter ?? cordDefaults.diameter),
      colours: new Map(Object.entries({ over: cordDefaults.colour, ...colours })),
      hitches: text(piece.hitches ?? cordDefaults.hitches),
      bar: text(piece.bar ?? cordDefaults.bar),
      takeUp: text(piece.takeUp),
      unit: ['mm', 'cm', 'm'].includes(unit) ? 'cm' : 'in',
      rates,
    },
    { book: new Map(), sheets: [...sheets, ...pieceSheets], tables: shippedTables },
  );
  // Prices are not asked for here, nor is anything of them to be looked at.
  const told = problems
    .filter(({ severity, where }) => severity === 'error' || where.file === 'products.csv')
    .map(asField);
  if (
    piece.measure !== undefined &&
    values !== undefined &&
    values.number('products', 'woven_length', 0) <= 0
  )
    return refused([
      asked('out-of-range', 'hardware', piece.hardware ?? '', {
        message: 'Hardware takes the whole length, and nothing is left to weave.',
        accepted: 'less than the piece is long',
        mend: 'Give a greater measure or less hardware.',
      }),
    ]);
  if (plan === undefined || values === undefined || hasErrors(told)) return refused(told);
  return answer(told, () => cordReport(plan, values));
}

function lengthProblems({ length, measure, ease, hardware, thickness }: Piece): readonly Problem[] {
  if ((length === undefined) === (measure === undefined))
    return [
      asked(length === undefined ? 'cell-missing' : 'cell-clash', 'length', length ?? '', {
        message: `${length === undefined ? 'Neither length nor' : 'Both length and'} measure ${length === undefined ? 'is' : 'are'} given.`,
        accepted: 'one of the two',
        mend: 'Give length for a woven length, or measure for a piece that closes round that.',
      }),
    ];
  const loose = measure === undefined ? Object.entries({ ease, hardware, thickness }) : [];
  const problems = loose
    .filter(([, given]) => given !== undefined)
    .map(([field, given]) =>
      asked('cell-clash', field, given, {
        message: `${field} goes with measure; length is the woven length as it is.`,
        accepted: 'nothing',
        mend: `Leave ${field} out, or give measure instead of length.`,
      }),
    );
  const field = length === undefined ? 'measure' : 'length';
  // A program that is not checked by types may give a bare number.
  const given = String(length ?? measure ?? '');
  if (parseMeasure(given, 'point')?.unit !== undefined) return problems;
  return [
    ...problems,
    asked('not-a-measure', field, given, {
      message: `${field} “${given}” is not a length with a unit.`,
      accepted: '7 in, 7 1/2 in or 18 cm',
      mend: 'Write it so.',
    }),
  ];
}

/** Fields of a piece by the columns of the book that is made of it. */
const fieldOfColumn: Readonly<Record<string, string>> = {
  weave: 'weave',
  layers: 'layers',
  core_strands: 'coreStrands',
  woven_length_set: 'length',
  measure: 'measure',
  ease: 'ease',
  hardware_length: 'hardware',
  diameter: 'diameter',
  material: 'colours',
  hitches: 'hitches',
  bar_diameter: 'bar',
  take_up_set: 'takeUp',
  thickness_set: 'thickness',
  stripe_cord: 'colours.stripe',
  band_cord: 'colours.band',
  cut_step: 'cutStep',
  spare_per_working_end: 'spare',
  trim_per_end: 'trim',
  chance_of_short_percent: 'chanceOfShortPercent',
};

/** The question was a piece, so that is where its problems are. */
function asField(found: Problem): Problem {
  const field = fieldOfColumn[found.where.column ?? ''];
  return {
    ...found,
    where: { file: 'question', ...(field === undefined ? {} : { column: field }) },
    message: inQuestionWords(found.message, fieldOfColumn),
    mend: inQuestionWords(found.mend, fieldOfColumn),
  };
}
