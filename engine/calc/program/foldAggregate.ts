import { criterion } from '../compiled/criterion.ts';
import { finite } from '../compiled/scalar.ts';
import { isFailure } from '../values.ts';
import type { FoldedArgument } from './folding.ts';
import { numeric } from './foldNumbers.ts';
import { constant, factsOf, isLeaf, kind, type List, type Node, operation } from './node.ts';

/** So many cells are written out one by one; more are gone through in a loop. */
const longest = 8;

/** A function over many values, where flat code can spell it; undefined where its compiled form has to be asked. */
export function foldAggregate(name: string, args: readonly FoldedArgument[]): Node | undefined {
  switch (name) {
    case 'SUM':
      return sumOf(args.flatMap(summands));
    case 'MIN':
    case 'MAX':
    case 'AVERAGE':
      return extreme(name, args);
    case 'COUNT':
      return counted('isNumber', args, (node) => (factsOf(node).kinds & kind.number) !== 0);
    case 'COUNTIF':
      return countedBy(args);
    case 'COUNTA':
      return counted('isThere', args, () => true);
    case 'SUMIF':
      return summedBy(args[2] ?? args[0], args.slice(0, 2));
    case 'SUMIFS':
      return summedBy(args[0], args.slice(1));
    case 'SUMPRODUCT':
      return sumProduct(args);
    default:
      return undefined;
  }
}

/** What an argument adds to a sum: of cells their numbers alone, otherwise the value read as a number. */
function summands(argument: FoldedArgument): Node[] {
  if ('cells' in argument) return argument.cells.flatMap(summandOfCell);
  const { value } = argument;
  return value.tag === 'constant' && value.value === null ? [] : [numeric(value)];
}

function summandOfCell(cell: Node): Node[] {
  if (cell.tag === 'constant') return typeof cell.value === 'number' || isFailure(cell.value) ? [cell] : [];
  return (factsOf(cell).kinds & ~kind.number) === 0 ? [cell] : [operation('summand', [cell], kind.number)];
}

/** Added up in order. A sum of what does not vary is only taken at the beginning, or last bits would differ. */
function sumOf(items: readonly Node[]): Node {
  const failing = items.find((each) => each.tag === 'constant' && isFailure(each.value));
  if (failing !== undefined) return failing;
  let known = 0;
  let at = 0;
  for (; at < items.length; at += 1) {
    const item = items[at];
    if (item?.tag !== 'constant') break;
    known += typeof item.value === 'number' ? item.value : 0;
  }
  const rest = items.slice(at);
  if (rest.length === 0) return constant(finite(known));
  return operation('sum', [constant(known), ...runs(rest)], kind.number);
}

/** Cells that follow one another in great number become one list. */
function runs(items: readonly Node[]): Node[] {
  if (items.length <= longest) return [...items];
  const out: Node[] = [];
  let run: Node[] = [];
  const close = (): void => {
    if (run.length > longest) out.push({ tag: 'list', items: run });
    else out.push(...run);
    run = [];
  };
  for (const item of items) {
    if (isLeaf(item)) run.push(item);
    else if (
      item.tag === 'operation' &&
      item.name === 'summand' &&
      item.args[0] !== undefined &&
      isLeaf(item.args[0])
    ) {
      run.push(item.args[0]);
    } else {
      close();
      out.push(item);
    }
  }
  close();
  return out;
}

function extreme(name: string, args: readonly FoldedArgument[]): Node | undefined {
  const cells = args.flatMap((each) => ('cells' in each ? each.cells : []));
  if (cells.some((each) => each.tag !== 'constant' && factsOf(each).kinds !== kind.number)) return undefined;
  const items = args.flatMap(summands);
  const failing = items.find((each) => each.tag === 'constant' && isFailure(each.value));
  if (failing !== undefined) return failing;
  if (items.length > longest) return undefined;
  if (name !== 'AVERAGE') return operation(name, items, kind.number, true);
  return operation('/', [sumOf(items), constant(items.length)], kind.number);
}

function counted(
  how: string,
  args: readonly FoldedArgument[],
  mayCount: (node: Node) => boolean,
): Node | undefined {
  let known = 0;
  const open: Node[] = [];
  for (const argument of args) {
    if (!('cells' in argument) && argument.value.tag !== 'constant') return undefined;
    for (const cell of 'cells' in argument ? argument.cells : [argument.value]) {
      if (cell.tag === 'constant') {
        if (!('cells' in argument)) return undefined;
        known += Number(how === 'isNumber' ? typeof cell.value === 'number' : cell.value !== null);
      } else if (mayCount(cell)) open.push(cell);
    }
  }
  return countOf(how, known, open);
}

/** How many of these are as asked. A count never fails. */
function countOf(how: string, known: number, open: readonly Node[]): Node {
  if (open.length === 0) return constant(known);
  const counting =
    open.length > longest && open.every(isLeaf) ? [{ tag: 'list', items: open } satisfies List] : open;
  const made = operation(`count:${how}`, [constant(known), ...counting], kind.number);
  return { ...made, facts: { ...made.facts, sure: true, lost: false } };
}

function countedBy([over, wanted]: readonly FoldedArgument[]): Node | undefined {
  const asked = constantOf(wanted);
  if (over === undefined || !('cells' in over) || asked === undefined) return undefined;
  const match = criterion(asked.value);
  if (typeof match !== 'function') return constant(match);
  let known = 0;
  const open: Node[] = [];
  for (const cell of over.cells) {
    if (cell.tag === 'constant') known += Number(match(cell.value));
    else open.push(cell);
  }
  if (open.length === 0) return constant(known);
  const list = open.every(isLeaf) ? [{ tag: 'list', items: open } satisfies List] : open;
  const made = operation('countMatching', [constant(known), asked, ...list], kind.number);
  return { ...made, facts: { ...made.facts, sure: true, lost: false } };
}

/** Where the cells that are looked through do not vary, which ones to add up is known. */
function summedBy(over: FoldedArgument | undefined, pairs: readonly FoldedArgument[]): Node | undefined {
  if (over === undefined || !('cells' in over)) return undefined;
  const kept = over.cells.map(() => true);
  for (let at = 0; at + 1 < pairs.length; at += 2) {
    const [through, asked] = [pairs[at], constantOf(pairs[at + 1])];
    if (through === undefined || !('cells' in through) || asked === undefined) return undefined;
    if (through.cells.length !== kept.length) return undefined;
    const match = criterion(asked.value);
    if (typeof match !== 'function') return constant(match);
    for (const [row, cell] of through.cells.entries()) {
      if (cell.tag !== 'constant') return undefined;
      kept[row] = kept[row] === true && match(cell.value);
    }
  }
  return sumOf(over.cells.filter((_, row) => kept[row]).flatMap(summandOfCell));
}

function constantOf(argument: FoldedArgument | undefined): (Node & { tag: 'constant' }) | undefined {
  const node = argument === undefined ? undefined : 'cells' in argument ? argument.cells[0] : argument.value;
  return node?.tag === 'constant' ? node : undefined;
}

/** Products row by row, added up in order; only of numbers. */
function sumProduct(args: readonly FoldedArgument[]): Node | undefined {
  const columns = args.map((each) => ('cells' in each ? each.cells : [each.value]));
  const length = columns[0]!.length;
  if (columns.some((column) => column.length !== length)) return undefined;
  const plain: Node[][] = [];
  for (const column of columns) {
    const numbers: Node[] = [];
    for (const cell of column) {
      if (cell.tag === 'constant') {
        if (isFailure(cell.value)) return cell;
        numbers.push(constant(typeof cell.value === 'number' ? cell.value : cell.value === true ? 1 : 0));
      } else if (factsOf(cell).kinds === kind.number && isLeaf(cell)) numbers.push(cell);
      else return undefined;
    }
    plain.push(numbers);
  }
  if (length > longest) {
    return operation(
      'sumProduct',
      plain.map((items): List => ({ tag: 'list', items })),
      kind.number,
    );
  }
  const products = Array.from({ length }, (_, row) =>
    plain
      .map((column) => column[row]!)
      .reduce((one, other) =>
        one.tag === 'constant' && other.tag === 'constant'
          ? constant(Number(one.value) * Number(other.value))
          : operation('*', [one, other], kind.number),
      ),
  );
  return sumOf(products);
}
