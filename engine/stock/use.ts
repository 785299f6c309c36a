import { type Book, sameKey } from '../book/book.ts';
import { dayText, periodStart } from '../book/measures/day.ts';
import { type Place, type Problem, problem } from '../book/problems/problem.ts';
import { type Exact, exactOf, nothing } from '../money/exact.ts';
import { gather } from './gather.ts';
import type { Item } from './items.ts';
import type { Move, MoveKind } from './move.ts';
import { needPlaces, type ProducedLine } from './production.ts';
import { datedRows } from './rows.ts';

/** A material over a period: what its pieces should have taken, normal waste with it, and what was taken. */
export interface UseLine {
  readonly periodStart: number;
  readonly material: string;
  /** The product that the row of used.csv names, or blank: all that have no row of their own. */
  readonly product: string;
  readonly normal: Exact;
  /** As used.csv says; the normal quantity where it says nothing. */
  readonly taken: Exact;
  readonly isMeasured: boolean;
}

/** The origin of waste that pieces took beyond what is normal for them. */
export const beyondPieces = 'beyond';

interface Taken {
  readonly material: string;
  readonly product: string;
  readonly start: number;
  quantity: Exact;
  day: number;
  place: Place;
}

/** A need of a row of made.csv, of which `taken` went into its pieces. */
interface OpenNeed {
  readonly line: ProducedLine;
  readonly material: string;
  readonly normal: Exact;
  taken: Exact;
}

/**
 * What was taken from stock otherwise than by a sale. Where used.csv says what pieces of a period took of a
 * material, that is shared out over them in proportion to what they should take, as far as that goes; what is
 * beyond is waste that is not normal, and stays out of their cost (IAS 2, 16(a)).
 */
export function readUse(
  book: Book,
  produced: readonly ProducedLine[],
  items: ReadonlyMap<string, Item>,
  periodMonths: number,
  problems: Problem[],
): { moves: Move[]; lines: UseLine[] } {
  const groups = takenForPieces(book, items, periodMonths);
  const needs = new Map<string, OpenNeed[]>();
  for (const line of produced) {
    const start = periodStart(line.day, periodMonths);
    for (const { material, quantity } of line.needs) {
      const own = groupName(start, material, line.product);
      const name = groups.has(own) ? own : groupName(start, material, '');
      gather(needs, name, { line, material, normal: quantity, taken: quantity });
    }
  }
  const beyond: Move[] = [];
  const lines: UseLine[] = [];
  for (const [name, group] of groups) {
    const open = needs.get(name) ?? [];
    const normal = open.reduce((sum, need) => sum.plus(need.normal), nothing);
    lines.push({
      periodStart: group.start,
      material: group.material,
      product: group.product,
      normal,
      taken: group.quantity,
      isMeasured: true,
    });
    const excess = group.quantity.minus(normal);
    if (excess.lt(0)) shareOut(open, group.quantity, normal);
    else if (normal.eq(0)) {
      problems.push(nothingMade(group));
      beyond.push(out(group, 'waste', excess, group.product));
    } else if (excess.gt(0)) beyond.push(...beyondNormal(open, group, excess, normal));
  }
  for (const [name, open] of needs) {
    const [first] = open;
    if (first === undefined || groups.has(name)) continue;
    const normal = open.reduce((sum, need) => sum.plus(need.normal), nothing);
    const start = periodStart(first.line.day, periodMonths);
    const { material } = first;
    lines.push({ periodStart: start, material, product: '', normal, taken: normal, isMeasured: false });
  }
  const intoPieces = [...needs.values()]
    .flat()
    .map((need) => out({ ...need.line, material: need.material }, 'used', need.taken, need.line.product));
  return { moves: [...intoPieces, ...beyond, ...otherUse(book, items, problems)], lines };
}

function groupName(start: number, material: string, product: string): string {
  return [start, sameKey(material), sameKey(product)].join('|');
}

function out(
  from: { readonly day: number; readonly material: string; readonly place: Place },
  what: MoveKind,
  quantity: Exact,
  partner: string,
): Move {
  const { day, material: item, place } = from;
  return { day, item, what, quantity: quantity.negated(), origin: '', partner, place };
}

/** Rows of used.csv with the reason made, put together by period, material and product. */
function takenForPieces(
  book: Book,
  items: ReadonlyMap<string, Item>,
  periodMonths: number,
): Map<string, Taken> {
  const groups = new Map<string, Taken>();
  for (const row of datedRows(book, 'used')) {
    const item = items.get(sameKey(row.text('item')));
    const quantity = row.number('quantity');
    if (row.text('reason') !== 'made' || item?.kind !== 'material' || quantity === null) continue;
    const start = periodStart(row.day, periodMonths);
    const product = row.text('product');
    const name = groupName(start, item.item, product);
    const group = groups.get(name);
    const { day, place } = row;
    if (group === undefined)
      groups.set(name, { material: item.item, product, start, quantity: exactOf(quantity), day, place });
    else {
      group.quantity = group.quantity.plus(exactOf(quantity));
      if (day >= group.day) {
        group.day = day;
        group.place = place;
      }
    }
  }
  return groups;
}

/** Shares less than the normal quantity out; every row ends where its part of the whole does, so that all of it is. */
function shareOut(open: readonly OpenNeed[], taken: Exact, normal: Exact): void {
  let normalSoFar = nothing;
  let takenSoFar = nothing;
  for (const need of open) {
    normalSoFar = normalSoFar.plus(need.normal);
    const upTo = normalSoFar.eq(normal)
      ? taken
      : normalSoFar.times(taken).div(normal).toDecimalPlaces(needPlaces);
    need.taken = upTo.minus(takenSoFar);
    takenSoFar = upTo;
  }
}

/** Waste beyond normal, shared out over the products in proportion to what they should have taken. */
function beyondNormal(open: readonly OpenNeed[], group: Taken, excess: Exact, normal: Exact): Move[] {
  const byProduct = new Map<string, Exact>();
  for (const { line, normal: own } of open)
    byProduct.set(line.product, (byProduct.get(line.product) ?? nothing).plus(own));
  let normalSoFar = nothing;
  let shared = nothing;
  return [...byProduct].flatMap(([product, own]) => {
    normalSoFar = normalSoFar.plus(own);
    const upTo = normalSoFar.eq(normal)
      ? excess
      : normalSoFar.times(excess).div(normal).toDecimalPlaces(needPlaces);
    const part = upTo.minus(shared);
    shared = upTo;
    return part.eq(0) ? [] : [{ ...out(group, 'waste', part, product), origin: beyondPieces }];
  });
}

/** What was spoiled, given away or kept, of materials and of finished pieces. */
function otherUse(book: Book, items: ReadonlyMap<string, Item>, problems: Problem[]): Move[] {
  return datedRows(book, 'used').flatMap((row): Move[] => {
    const item = items.get(sameKey(row.text('item')));
    const quantity = row.number('quantity');
    const reason = row.text('reason');
    if (item === undefined || quantity === null) return [];
    if (reason === 'made') {
      if (item.kind === 'product') problems.push(piecesIntoPieces(item.item, row.place));
      return [];
    }
    const what = reason as MoveKind;
    return [
      out(
        { day: row.day, material: item.item, place: row.place },
        what,
        exactOf(quantity),
        row.text('product'),
      ),
    ];
  });
}

function nothingMade(group: Taken): Problem {
  return problem(
    'check-failed',
    group.place,
    `${group.material} was used for pieces${group.product === '' ? '' : ` of ${group.product}`}, and made.csv has none that take it in the period from ${dayText(group.start)}. All of it counts as waste.`,
    {
      severity: 'watch',
      accepted: 'pieces of the same period that take the material',
      mend: 'Add them to made.csv, date the row in their period, or give it another reason.',
    },
  );
}

function piecesIntoPieces(product: string, place: Place): Problem {
  return problem(
    'not-a-choice',
    { ...place, column: 'reason' },
    `“${product}” is a product, and only materials go into pieces.`,
    {
      found: 'made',
      accepted: 'waste, sample, gift, own use, other',
      mend: 'Give the reason why the pieces left stock; pieces that were made stand in made.csv.',
    },
  );
}
