import type { BookValue } from '../book/book.ts';
import { forceUnitOf } from '../book/measures/force.ts';
import { convertLength, type LengthUnit, lengthUnit, parseMeasure } from '../book/measures/measure.ts';
import { shiftDecimal } from '../book/measures/numberText.ts';
import { convertWeight, parseWeight, parseWeightOfLength } from '../book/measures/weight.ts';
import { type Place, type Problem, problem } from '../book/problems/problem.ts';
import { readField } from '../book/readField.ts';
import type { FieldSchema } from '../book/schema.ts';
import type { Settings } from '../book/settings.ts';
import { keptNumber, sameValue } from './compare/sameValue.ts';
import { grouped, plainNumber, tapeFraction, withDecimals } from './plainNumber.ts';
import { inHeadingWords, isWords } from './read/cellValue.ts';

/** How the texts around a cell are written, which a new one follows. */
export interface Manner {
  /** What stands in the cell, or in its neighbour; blank where nothing does. */
  readonly model: string;
  /** The unit of bare numbers, where the heading says one. */
  readonly headingUnit?: string;
  /** Other texts of its column, the nearest first. */
  readonly neighbours?: readonly string[];
  /** What somebody typed for the value. */
  readonly typed?: string;
  /** By what the material is sold that the figure is of. */
  readonly sold?: 'length' | 'piece';
}

/**
 * A value as its maker would write it in the book: in the unit and notation of what stood there. Every text that is
 * returned reads as the value again; where none does, the value is not one that the column takes.
 */
export function valueText(
  value: BookValue,
  field: FieldSchema,
  settings: Settings,
  manner: Manner,
  where: Place,
): { readonly text: string } | { readonly problem: Problem } {
  if (value === null) return { text: '' };
  const candidates = typeof value === 'string' ? [value] : spellings(value, field, settings, manner);
  let fault: Problem | undefined;
  for (const text of candidates) {
    const problems: Problem[] = [];
    const read = readField(text, field, settings, where, problems, manner.headingUnit);
    const [error] = problems.filter(({ severity }) => severity === 'error');
    if (error === undefined && sameValue(read.value, value)) return { text };
    fault ??= error;
  }
  return {
    problem: problem(
      'workbook-cell',
      where,
      inHeadingWords(fault?.message, field, where) ?? 'The value cannot be written in the book.',
      {
        found: String(value),
        accepted: fault?.accepted ?? '',
        mend: fault?.mend ?? 'Write another value.',
      },
    ),
  };
}

/** A longer number is no figure that somebody chose: another unit may say it better. */
const roundFigure = 8;

function spellings(value: number, field: FieldSchema, settings: Settings, manner: Manner): string[] {
  const { model, headingUnit, sold, typed = '', neighbours = [] } = manner;
  const { decimal } = settings;
  const isInGroups = [model, ...neighbours].some((text) => isGrouped(text, settings));
  const plain = (number: number): string => {
    const digits = plainNumber(keptNumber(number), decimal);
    return isInGroups ? grouped(digits, decimal) : digits;
  };
  if (field.kind === 'percent') {
    const percent = plain(shiftDecimal(value, 2));
    const sign = /\s*%$/.exec(model)?.[0] ?? ' %';
    const small = value !== 0 && Math.abs(value) < 0.01;
    return model.endsWith('%') || small ? [`${percent}${sign}`, percent] : [percent, `${percent}${sign}`];
  }
  const bare = plain(value);
  const unit = unitOf(field, settings);
  if (unit === undefined) return [inManner(value, field, settings, model, isInGroups), bare];
  // Whoever typed a unit chose it.
  const asTyped = /\d\s*(?:[a-z]|["″”'′’])/i.test(typed) ? [typed] : [];
  if (field.kind === 'quantity' && sold === 'piece') {
    const counted = /\d(\s*(?:pieces?|pcs?\.?|each))$/i.exec(model)?.[1];
    return [
      ...asTyped,
      counted === undefined && headingUnit === undefined ? bare : `${bare}${counted ?? ' pcs'}`,
    ];
  }
  const own = inOwnUnit(value, field, settings, model, isInGroups);
  const inHeading = headingUnit === undefined ? bare : plain(inUnit(value, unit, headingUnit));
  const inSheet = `${bare} ${unit}`;
  const alike = neighbours.filter((text) => unitWord(text) === unitWord(model));
  const near = alike.flatMap((text) => inOwnUnit(value, field, settings, text, isInGroups));
  const far = neighbours.flatMap((text) => inOwnUnit(value, field, settings, text, isInGroups));
  // A bare model means the heading's unit, or the sheet's; so does a bare number where nothing stood.
  const isUnited = own.length > 0 && headingUnit === undefined;
  const all = [
    ...own,
    ...near,
    ...(isUnited ? [inSheet] : [inHeading, inSheet]),
    ...far,
    ...(isUnited ? [inHeading] : []),
    ...inAnyUnit(value, field, unit, plain),
  ];
  const first = own.length + near.length;
  // A fraction of the unit that stood there is what a tape measure says.
  const rank = (text: string, at: number): number =>
    at < first && /[/⁄]/.test(text) ? 1 : Math.max(roundFigure, text.length);
  return [
    ...asTyped,
    ...all
      .map((text, at) => ({ text, at, rank: rank(text, at) }))
      .sort((a, b) => a.rank - b.rank || a.at - b.at)
      .map(({ text }) => text),
  ];
}

function unitWord(text: string): string {
  return /[a-z"″”'′’]*$/i.exec(text)?.[0].toLowerCase() ?? '';
}

const lengthKinds: readonly FieldSchema['kind'][] = ['length', 'cord', 'fine', 'quantity'];

/** A length in every unit: one of them may be that in which it is a round figure. */
function inAnyUnit(
  value: number,
  { kind }: FieldSchema,
  unit: string,
  plain: (number: number) => string,
): string[] {
  const own = lengthUnit(unit);
  if (own === undefined || !lengthKinds.includes(kind)) return [];
  return (['in', 'cm', 'mm', 'ft', 'm', 'yd'] as const)
    .map((each) => `${plain(convertLength(value, own, each))} ${each}`)
    .sort((one, other) => one.length - other.length);
}

/** The unit that the sheet holds such a figure in; undefined where it has none to be written. */
function unitOf({ kind }: FieldSchema, settings: Settings): string | undefined {
  switch (kind) {
    case 'length':
      return settings.lengthUnit;
    case 'cord':
    case 'quantity':
      return settings.cordUnit;
    case 'fine':
      return 'mm';
    case 'weight':
    case 'weight_per_unit':
      return settings.weightUnit;
    case 'force':
      return forceUnitOf(settings);
    default:
      return undefined;
  }
}

/** A length in the unit of a heading; other figures as they are. */
function inUnit(value: number, from: string, to: string): number {
  const [one, other] = [lengthUnit(from), lengthUnit(to)];
  return one === undefined || other === undefined ? value : convertLength(value, one, other);
}

/** The value with the unit that the model carries, its fraction or its groups; nothing where it carries none. */
function inOwnUnit(
  value: number,
  field: FieldSchema,
  settings: Settings,
  model: string,
  isInGroups: boolean,
): string[] {
  const { decimal } = settings;
  const ending = /\d(\s*(?:[a-z]+\.?|["″”'′’]|''))$/i.exec(model)?.[1];
  const write = (number: number, unit: string): string[] => {
    const kept = keptNumber(number);
    const fraction = /\d\s*[/⁄]\s*\d/.test(model) ? tapeFraction(kept) : undefined;
    const digits = plainNumber(kept, decimal);
    const text = isInGroups ? grouped(digits, decimal) : digits;
    return fraction === undefined ? [`${text}${unit}`] : [`${fraction}${unit}`, `${text}${unit}`];
  };
  if (field.kind === 'weight_per_unit') {
    const pair = parseWeightOfLength(model, decimal);
    if (pair !== undefined) {
      const { weight, length } = pair;
      const perLength = convertLength(length.value, length.unit, settings.cordUnit);
      const number = convertWeight(value * perLength, settings.weightUnit, weight.unit);
      const each = length.value === 1 ? length.unit : `${plainNumber(length.value, decimal)} ${length.unit}`;
      return [
        ...write(number, ` ${weight.unit}/${each}`),
        ...write(value, ` ${settings.weightUnit}/${settings.cordUnit}`),
      ];
    }
  }
  if (field.kind === 'weight' || field.kind === 'weight_per_unit') {
    const unit = parseWeight(model, decimal)?.unit;
    return unit === undefined || ending === undefined
      ? []
      : write(convertWeight(value, settings.weightUnit, unit), ending);
  }
  if (field.kind === 'force') return [];
  const pieces = field.kind === 'quantity' && /(?:pieces?|pcs?\.?|each)$/i.test(model);
  if (pieces && ending !== undefined) return write(value, ending);
  const unit = parseMeasure(model, decimal)?.unit;
  if (unit === undefined || ending === undefined) return [];
  return write(convertLength(value, unitOf(field, settings) as LengthUnit, unit), ending);
}

/** A figure without a unit: as many decimals, groups and signs of a currency as the model has. */
function inManner(
  value: number,
  { kind }: FieldSchema,
  settings: Settings,
  model: string,
  isInGroups: boolean,
): string {
  const { decimal } = settings;
  const number = /[\d.,'’\s]*\d/.exec(model)?.[0] ?? '';
  const digits = (decimal === 'comma' ? /,(\d+)$/ : /\.(\d+)$/).exec(number)?.[1]?.length ?? 0;
  const plain = plainNumber(keptNumber(value), decimal);
  // Coins stand in full where there are any.
  const coins = kind === 'money' && !Number.isInteger(value) ? settings.currencyDigits : 0;
  const isMoney = kind === 'money' || kind === 'money_per_unit';
  const padded = isMoney ? withDecimals(plain, Math.max(digits, coins), decimal) : plain;
  const text = isInGroups ? grouped(padded, decimal) : padded;
  const sign = /^-/.test(model) || value < 0 || isWords(kind);
  return number.trim() === '' || sign ? text : model.replace(number.trim(), () => text);
}

function isGrouped(model: string, { decimal }: Settings): boolean {
  return (decimal === 'comma' ? /\d\.\d{3}(?!\d)/ : /\d,\d{3}(?!\d)/).test(model);
}
