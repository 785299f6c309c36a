import { parseNumber, shiftDecimal } from '../../book/measures/numberText.ts';
import { mendName } from '../../book/problems/nearest.ts';
import { readCell } from '../../book/readCell.ts';
import type { FieldSchema } from '../../book/schema.ts';
import type { Plan, PlanColumn } from '../../sheets/plan.ts';
import type { Alteration, Change, ChangeFault, InputCells } from './change.ts';
import { columnOf, effectText, inputsText } from './changeText.ts';
import { findInputs, isFault } from './findInputs.ts';

const accepted = 'a change such as cord +12 %, wage = 24.50, fees of online +0.5 points, buckles -0.05';

/**
 * Reads one change: what is changed, then `+12 %`, `-0.05`, `+2 points`, `up 12 %`, `12 % dearer`, `= 24.50` or `to 24.50`.
 * A per cent is always a share of the figure as it is; what is itself a per cent goes up by points.
 */
export function parseChange(text: string, plan: Plan): Change | ChangeFault {
  const parts = split(text.trim());
  if (parts === undefined) return unclear(text.trim());
  const found = findInputs(parts.what, plan);
  if (isFault(found)) return found;
  const cells = parts.how === 'set' ? settable(found.cells, plan) : [...found.cells, ...found.along];
  const first = cells.flatMap((each) => columnOf(plan, each) ?? [])[0];
  if (first === undefined)
    return {
      message: `“${parts.what}” names nothing in this book.`,
      accepted,
      mend: 'Look at the names in the tables.',
    };
  const written = parts.how === 'set' ? newValue(parts.figure, first, plan) : difference(parts, first, plan);
  if (isFault(written)) return written;
  const sum = found.together === undefined ? undefined : sumOf(cells, plan);
  const alteration = sum === undefined ? written : sharedOut(written, sum);
  if (alteration === undefined)
    return {
      message: `“${parts.what}” is nothing in this book, so nothing tells how to share it out.`,
      accepted: 'one of its rows by name',
      mend: 'Name the row that changes.',
    };
  const moved = movable(cells, alteration, plan);
  if (moved.length === 0)
    return {
      message: `“${parts.what}” is blank in this book, so there is nothing to go up or down.`,
      accepted: 'a new value, such as = 24.50',
      mend: `Write ${parts.what} = and the figure.`,
    };
  const also = moved.some((each) => each.sheet !== moved[0]?.sheet);
  const main = moved.filter((each) => each.sheet === moved[0]?.sheet);
  const together = alteration === written ? '' : ', all together and each in proportion';
  const reads = `${inputsText(main, plan)}${also ? ` (and in ${moved.at(-1)?.sheet}.csv)` : ''}${together}`;
  const effect = effectText(written, moved, plan, sum);
  // Of one figure it is told what it was and becomes, which says enough.
  const isMany = sum === undefined && moved.reduce((all, { rows }) => all + rows.length, 0) > 1;
  const isBare = written.how === 'amount' && /^\d+$/.test(parts.figure);
  const otherwise =
    isMany && isBare ? `${parts.what} ${parts.how === 'down' ? '-' : '+'}${parts.figure} %` : '';
  return { text: text.trim(), cells: moved, alteration, reads, effect, otherwise };
}

function unclear(text: string): ChangeFault {
  const figure = /^(.+?)\s+(?:by\s+)?([\d.,]*\d\s*(?:%|per ?cent|points?)?)$/i.exec(text);
  const close = /^([^[\]]*\p{L})([+−-]\s*[\d.,].*)$/u.exec(text);
  if (close !== null)
    return {
      message: `“${text}” has no blank before its sign, and a sign may stand in a name.`,
      accepted,
      mend: `Write “${close[1]} ${close[2]}”.`,
    };
  if (figure === null)
    return {
      message: `“${text}” does not say what happens: by how much, or to what.`,
      accepted,
      mend: 'End it with +12 %, -0.05 or = 24.50.',
    };
  const [, what = '', by = ''] = figure;
  // A bare figure is more often what it becomes than by how much it changes.
  if (/\d$/.test(by))
    return {
      message: `“${text}” does not say whether ${what} becomes ${by}, or goes up or down by it.`,
      accepted,
      mend: `Write “${what} = ${by}”, “${what} +${by}”, “${what} -${by}” or, for a share of it, “${what} +${by} %”.`,
    };
  return {
    message: `“${text}” does not say whether ${what} goes up or down.`,
    accepted,
    mend: `Write “${what} +${by}” or “${what} -${by}”.`,
  };
}

function sumOf(cells: readonly InputCells[], plan: Plan): number {
  return cells
    .flatMap((each) => each.rows.map((row) => Number(columnOf(plan, each)?.inputs?.[row] ?? 0)))
    .reduce((sum, each) => sum + each, 0);
}

/** An amount or a new value of a sum, as the share by which each of its cells goes up or down. */
function sharedOut(written: Alteration, sum: number): Alteration | undefined {
  if (written.how === 'percent') return written;
  if (sum === 0) return undefined;
  const by = written.how === 'amount' ? written.by : Number(written.value) - sum;
  return { how: 'percent', by: by / sum };
}

interface Parts {
  readonly what: string;
  readonly how: 'set' | 'up' | 'down';
  readonly figure: string;
}

const downWords = /(?:cheaper|less|lower|shorter|down)$/i;

/** Signs count only outside brackets and after a blank, since names hold hyphens too. */
function split(text: string): Parts | undefined {
  const set =
    /^((?:[^[\]=]|\[[^\]]*\])+?)\s*=\s*(.+)$/.exec(text) ?? /^(.+?)\s+to\s+([\d.,]\S*(?:\s*%)?)$/i.exec(text);
  if (set !== null) return { what: set[1]?.trim() ?? '', how: 'set', figure: set[2]?.trim() ?? '' };
  // As one says it: cord 12 % dearer, minutes of bar 0.5 less.
  const said =
    /^(.+?)\s+(?:by\s+)?([\d.,]*\d\s*(?:%|per ?cent|points?)?)\s+(?:dearer|cheaper|more|less|higher|lower|longer|shorter|up|down)$/i.exec(
      text,
    );
  if (said !== null)
    return {
      what: said[1]?.trim() ?? '',
      how: downWords.test(text) ? 'down' : 'up',
      figure: said[2]?.trim() ?? '',
    };
  const by =
    /^(.+?)(?:\s+|(?<=\]))([+−–-]|up(?:\s+by)?\s|down(?:\s+by)?\s|(?=plus\s)plus\s|minus\s)\s*(\d.*|[.,]\d.*)$/i.exec(
      text,
    );
  if (by === null) return undefined;
  const sign = by[2]?.trim().toLowerCase() ?? '+';
  const down = ['-', '−', '–', 'minus'].includes(sign) || sign.startsWith('down');
  return { what: by[1]?.trim() ?? '', how: down ? 'down' : 'up', figure: by[3]?.trim() ?? '' };
}

/** A new value goes into one column: the first that the word stands for. */
function settable(cells: readonly InputCells[], plan: Plan): readonly InputCells[] {
  const [first] = cells;
  if (first === undefined) return [];
  // Of work, the column that holds a figure already is the one that is meant.
  const filled = cells.find((each) => each.rows.some((row) => columnOf(plan, each)?.inputs?.[row] !== null));
  const chosen = filled ?? first;
  return [chosen];
}

function fieldOf(column: PlanColumn, bounded: boolean): FieldSchema {
  return {
    id: column.id,
    kind: column.kind,
    required: false,
    ...(bounded ? column.bounds : {}),
    ...(column.choices === undefined ? {} : { choices: column.choices }),
  };
}

function newValue(figure: string, column: PlanColumn, plan: Plan): Alteration | ChangeFault {
  const reading = readCell(figure.replace(/^"(.*)"$/, '$1'), fieldOf(column, true), plan.settings);
  if ('fault' in reading) return reading.fault;
  if (column.of !== undefined) {
    const sheet = plan.sheets.find(({ id }) => id === column.of);
    const names = (sheet?.columns.find(({ id }) => id === sheet.key[0])?.inputs ?? []).map(String);
    const proper = names.find((each) => each.toLowerCase() === String(reading.value).toLowerCase());
    if (proper === undefined)
      return {
        message: `“${figure}” is not in ${column.of}.`,
        accepted: `a name from ${column.of}`,
        mend: mendName(figure, names),
      };
    return { how: 'value', value: proper };
  }
  return { how: 'value', value: reading.value };
}

function difference({ how, figure }: Parts, column: PlanColumn, plan: Plan): Alteration | ChangeFault {
  const sign = how === 'down' ? -1 : 1;
  const fault = (message: string): ChangeFault => ({
    message,
    accepted,
    mend: 'Write the figure after the sign.',
  });
  if (['text', 'ref', 'choice', 'yes_no', 'key', 'formula'].includes(column.kind))
    return {
      message: `${column.heading} holds words, which cannot go up or down.`,
      accepted: 'a new value, such as = yes',
      mend: 'Write = and the new word.',
    };
  const share = /^(.+?)\s*(?:%|per ?cent)$/i.exec(figure);
  const points = /^(.+?)\s*(?:%\s*)?points?$/i.exec(figure);
  if (share !== null || points !== null) {
    const number = parseNumber((share ?? points)?.[1] ?? '', plan.settings.decimal);
    if (number === undefined)
      return /[,;]\s*\p{L}/u.test(figure)
        ? {
            message: `“${figure}” holds more than one change.`,
            accepted,
            mend: 'Write each change in quotation marks of its own.',
          }
        : fault(`“${figure}” is no number.`);
    if (share !== null) return { how: 'percent', by: sign * shiftDecimal(number, -2) };
    if (column.kind === 'percent') return { how: 'amount', by: sign * shiftDecimal(number, -2) };
    return {
      message: `${column.heading} is no per cent, so it has no points.`,
      accepted,
      mend: 'Write % for a share of it, or the bare amount.',
    };
  }
  if (column.kind === 'percent')
    return {
      message: `“${figure}” leaves open whether it is a share or points.`,
      accepted: '+2 points (6 % becomes 8 %), or +2 % (6 % becomes 6.12 %)',
      mend: 'Write points or %.',
    };
  const reading = readCell(figure, fieldOf(column, false), plan.settings);
  if ('fault' in reading) return reading.fault;
  return { how: 'amount', by: sign * Number(reading.value) };
}

/** Cells that the change does something to: a blank has nothing to go up or down by. */
function movable(cells: readonly InputCells[], alteration: Alteration, plan: Plan): InputCells[] {
  const kinds = new Map(cells.map((each) => [each, columnOf(plan, each)]));
  return cells.flatMap((each) => {
    const column = kinds.get(each);
    if (column === undefined) return [];
    // Not as much of another kind: fees of 0.30 an order do not go up by half a point.
    if (alteration.how === 'amount' && column.kind !== kinds.get(cells[0] as InputCells)?.kind) return [];
    // A fee that is not charged does not go up with those that are.
    const charged = alteration.how === 'amount' && each.rows.some((row) => column.inputs?.[row] !== 0);
    const rows =
      alteration.how === 'value'
        ? each.rows
        : each.rows.filter(
            (row) => typeof column.inputs?.[row] === 'number' && !(charged && column.inputs[row] === 0),
          );
    return rows.length === 0 ? [] : [{ ...each, rows }];
  });
}
