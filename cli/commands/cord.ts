import type { Command } from 'commander';
import {
  type CordQuestion,
  cordDefaults,
  cordReport,
  hasErrors,
  inQuestionWords,
  oneOffCord,
  type Problem,
  parseMeasure,
  type Source,
  weaveNames,
} from '../../engine/index.ts';
import { readBookFolder, shipped, shippedSheets } from '../bookFolder.ts';
import { Hindrance, type Io } from '../io.ts';
import { json } from '../terminal/json.ts';
import { showCord } from '../terminal/showCord.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly weave: string;
  readonly layers: string;
  readonly core?: string;
  readonly length?: string;
  readonly measure?: string;
  readonly ease?: string;
  readonly hardware?: string;
  readonly diameter: string;
  readonly colours: string;
  readonly hitches: string;
  readonly bar: string;
  readonly takeUp?: string;
  readonly thickness?: string;
  readonly step?: string;
  readonly spare?: string;
  readonly trim?: string;
  readonly chance?: string;
  readonly book?: string;
  readonly json?: true;
  readonly plain?: true;
}

const roles = ['core', 'over', 'under', 'upper over', 'upper under', 'stripe', 'band'];

export function addCord(program: Command, io: Io): void {
  program
    .command('cord')
    .description('what cord one piece takes and what to cut, with the working shown')
    .option('--length <measure>', 'woven length, such as "7 in", "7 1/2 in" or "18 cm"')
    .option(
      '--measure <measure>',
      'instead of --length: what the piece closes round, such as a wrist of "6 1/2 in"',
    )
    .option('--ease <measure>', 'with --measure: slack between body and piece (default: none)')
    .option(
      '--hardware <measure>',
      'with --measure: what buckle and rings take of the length (default: nothing)',
    )
    .option('--weave <name>', 'a shipped weave, or one of --book', cordDefaults.weave)
    .option('--layers <number>', 'passes of a bar, one over the other', cordDefaults.layers)
    .option('--core <strands>', 'core strands side by side (default: two in a bar, one in a wrap)')
    .option('--diameter <measure>', 'of the cord', cordDefaults.diameter)
    .option(
      '--colours <list>',
      'by role, such as "over=red, under=black, core=black"; or one colour for all; under and core are the over colour unless given',
      cordDefaults.colour,
    )
    .option('--hitches <number>', 'hitches of the core on hardware', cordDefaults.hitches)
    .option('--bar <measure>', 'diameter of the bar that is hitched on', cordDefaults.bar)
    .option('--thickness <measure>', 'of the finished piece, where it is measured; for --measure')
    .option('--take-up <number>', 'measured: cord that one working cord takes per length woven')
    .option('--step <measure>', 'cuts are rounded up to this (default: 1 in or 1 cm)')
    .option('--spare <measure>', 'left at each working end to finish by hand (default: 12 in or 30 cm)')
    .option('--trim <measure>', 'trimmed and melted at each end (default: 1/8 in or 3 mm)')
    .option('--chance <per cent>', 'pieces in a hundred that may run short of cord (default: 2)')
    .option('--book <folder>', 'take weaves of its own from this book (and nothing else)')
    .option('--json', 'print lengths in millimetres as JSON')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      () => `
Examples:
  $ sennit cord --length "7 in"
  $ sennit cord --measure "6 1/2 in" --ease "1/2 in" --hardware "1 1/4 in"
  $ sennit cord --length "7 1/2 in" --layers 2 --core 4 --colours "over=red, under=black, core=black"
  $ sennit cord --weave "round braid 8" --length "120 cm" --json
  $ sennit cord --length "8 in" --hitches 2 --bar "1/4 in" --take-up 5.2

Weaves: ${weaveNames(shipped().tables).join(', ')}.

In JSON: totalMm is all cord that stays in the piece; colours has colour and cutMm (all cord to cut of
that colour); closing has measureMm, easeMm, thicknessMm, hardwareMm and finishedMm, or is null; halfKnots
has count and knottedMm, or is null; cuts has role, colour, pieces, wovenMm, hitchedMm, joinedMm, inPieceMm,
extraMm, spareMm, trimMm and cutMm for each piece; takeUp, takeUpByGeometry, coreTakeUp and pitchRatio are
cord per length woven and cord diameters; chanceOfShort, extraRatio and spreadRatio are shares: 0.02 is 2 %.`,
    )
    .action((options: Options) => {
      const question = questionOf(options);
      const book = options.book === undefined ? new Map<string, string>() : readBookFolder(io, options.book);
      const { sheets, tables } = shipped();
      const source: Source = { book, sheets: [...sheets, ...shippedSheets('oneoff')], tables };
      const { problems, plan, values } = oneOffCord(question, source);
      if (
        values !== undefined &&
        question.measure !== '' &&
        values.number('products', 'woven_length', 0) <= 0
      )
        throw new Hindrance(
          'Hardware takes the whole length, and nothing is left to weave.\n  Give a greater --measure or a smaller --hardware.',
          2,
        );
      if (plan === undefined || values === undefined || hasErrors(problems))
        throw new Hindrance(problems.map(asOption).join('\n'), 2);
      const report = cordReport(plan, values);
      io.out(
        options.json
          ? json(report)
          : showCord(report, {
              width: io.columns ?? 80,
              style: styleFor(io, options.plain),
              settings: plan.settings,
            }),
      );
      // Prices are not asked for here, nor is anything of them to be looked at.
      const looks = problems.filter(({ where }) => where.file === 'products.csv');
      if (!options.json && looks.length > 0) io.err(`Look: ${looks.map(asOption).join('\nLook: ')}\n`);
    });
}

function questionOf(options: Options): CordQuestion {
  const { length, measure: round } = options;
  if ((length === undefined) === (round === undefined)) {
    const fault =
      length === undefined
        ? 'Neither --length nor --measure is given.'
        : 'Both --length and --measure are given.';
    throw new Hindrance(
      `${fault}\n  Write --length "7 in" for a woven length, or --measure "6 1/2 in" for a piece that closes round that.`,
      2,
    );
  }
  for (const name of ['ease', 'hardware', 'thickness'] as const) {
    if (options[name] === undefined || round !== undefined) continue;
    throw new Hindrance(
      `--${name} goes with --measure; --length is the woven length as it is.\n  Leave --${name} out, or give --measure instead of --length.`,
      2,
    );
  }
  const name = length === undefined ? 'measure' : 'length';
  const given = length ?? round ?? '';
  const measure = parseMeasure(given, 'point');
  if (measure?.unit === undefined) {
    throw new Hindrance(
      `--${name} “${given}” is not a length${measure === undefined ? '' : ' with a unit'}.\n  Write it as "7 in", "7 1/2 in" or "18 cm".`,
      2,
    );
  }
  const metric = ['mm', 'cm', 'm'].includes(measure.unit);
  const rates = new Map<string, string>();
  if (options.step !== undefined) rates.set('cut_step', options.step);
  if (options.spare !== undefined) rates.set('spare_per_working_end', options.spare);
  if (options.trim !== undefined) rates.set('trim_per_end', options.trim);
  if (options.chance !== undefined) rates.set('chance_of_short_percent', options.chance);
  return {
    ...options,
    core: options.core ?? '',
    length: length ?? '',
    measure: round ?? '',
    ease: options.ease ?? '',
    hardware: options.hardware ?? '',
    takeUp: options.takeUp ?? '',
    thickness: options.thickness ?? '',
    colours: coloursByRole(options.colours),
    unit: metric ? 'cm' : 'in',
    rates,
  };
}

/** "over=red, under=black" by role; a bare colour is the over cord's, and so everyone's. */
function coloursByRole(text: string): Map<string, string> {
  const colours = new Map<string, string>();
  for (const part of text.split(',')) {
    // At the first sign only: what a colour is called is the maker's affair.
    const sign = part.indexOf('=');
    const role = sign < 0 ? 'over' : part.slice(0, sign).trim().toLowerCase();
    const named = part.slice(sign + 1).trim();
    // Names are alike whatever the capitals, here as in a book.
    const colour = [...colours.values()].find((each) => each.toLowerCase() === named.toLowerCase()) ?? named;
    if (!roles.includes(role) || colour === '' || colours.has(role)) {
      throw new Hindrance(
        `--colours “${text}” cannot be read at “${part.trim()}”.\n  Roles are ${roles.join(', ')}, each once; write "over=red, under=black" or one colour.`,
        2,
      );
    }
    colours.set(role, colour);
  }
  if (!colours.has('over'))
    throw new Hindrance('--colours does not say the over cord.\n  Add over=colour.', 2);
  return colours;
}

const optionOfColumn: Readonly<Record<string, string>> = {
  weave: '--weave',
  layers: '--layers',
  core_strands: '--core',
  woven_length_set: '--length',
  measure: '--measure',
  ease: '--ease',
  hardware_length: '--hardware',
  diameter: '--diameter',
  material: '--colours',
  hitches: '--hitches',
  bar_diameter: '--bar',
  take_up_set: '--take-up',
  thickness_set: '--thickness',
  stripe_cord: 'the stripe',
  band_cord: 'the band',
  cut_step: '--step',
  spare_per_working_end: '--spare',
  trim_per_end: '--trim',
  chance_of_short_percent: '--chance',
};

/** The question stands on the command line, so that is where its problems are. */
function asOption(found: Problem): string {
  // A named book's own tables keep their places; what was made up for the question has none.
  const isOwn = ['weaves.csv', 'families.csv'].includes(found.where.file);
  const place = [
    found.where.row === undefined ? '' : `, row ${found.where.row}`,
    found.where.column === undefined ? '' : `, column ${found.where.column}`,
  ];
  const option = isOwn
    ? `${found.where.file}${place.join('')}`
    : (optionOfColumn[found.where.column ?? ''] ?? '');
  const lines = [`${option === '' ? '' : `${option}: `}${inOptions(found.message)}`];
  if (found.accepted !== '') lines.push(`  Accepted: ${found.accepted}.`);
  if (found.mend !== '') lines.push(`  ${inOptions(found.mend)}`);
  return lines.join('\n');
}

/** Messages speak of a book's columns; here the same figures are options. */
function inOptions(text: string): string {
  return inQuestionWords(text, optionOfColumn).replace(/\bSet layers to 1\b/, 'Leave --layers at 1');
}
