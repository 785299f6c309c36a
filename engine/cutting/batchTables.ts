import { type BookValue, sameKey, type Table } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import { headingRow } from '../sheets/planIndex.ts';
import type { CutReport, MaterialCut, Purchase, StockCut } from './cutReport.ts';
import { rowCount, textOf } from './supplies.ts';

type Row = Readonly<Record<string, BookValue>>;

/** A part of a pattern that is for one product and role: so many cords from each of so many lengths of stock. */
interface Share {
  readonly units: number;
  readonly pieces: readonly {
    readonly product: string;
    readonly role: string;
    readonly cutMm: number;
    readonly each: number;
  }[];
}

/** Pieces of one length that are still to be shared out to the products that they are for. */
type Uses = Map<number, { product: string; role: string; left: number }[]>;

/**
 * A solved batch as tables that the sheets Make, Cutting plan, Fittings and Shopping list show. They hold what
 * the search found and nothing that a formula can say.
 *
 * @param plan the book without a batch, and its values: what the report was made from
 */
export function batchTables(plan: Plan, values: Values, report: CutReport): Map<string, Table> {
  const shopping = report.shopping.map((each, at) => ({ ...each, line: `buy ${at + 1}` }));
  const tables: readonly (readonly [string, readonly string[], readonly Row[]])[] = [
    ['make', ['product', 'quantity', 'remark'], report.make.map((line) => ({ remark: null, ...line }))],
    ['cutting_plan', cuttingColumns, cuttingRows(plan, values, report, shopping)],
    ['fittings', ['product', 'material', 'planned'], fittingRows(plan, values, report)],
    [
      'shopping_list',
      ['line', 'material', 'pack', 'packs', 'price_in', 'from_packs'],
      shopping.map((each) => shoppingRow(plan, values, each)),
    ],
  ];
  return new Map(tables.map(([name, columns, rows]) => [name, tableOf(name, columns, rows)]));
}

function tableOf(name: string, columns: readonly string[], rows: readonly Row[]): Table {
  return {
    name,
    rowCount: rows.length,
    columns: new Map(columns.map((column) => [column, rows.map((row) => row[column] ?? null)])),
    places: rows.map(() => ({ file: name })),
  };
}

const cuttingColumns: readonly string[] = [
  'cut',
  'bundle',
  'material',
  'kind',
  'stock_length',
  'units',
  'in_each',
  'product',
  'role',
  'opened',
  'source',
  'planned_cut',
];

function cuttingRows(
  plan: Plan,
  values: Values,
  report: CutReport,
  shopping: readonly (Purchase & { readonly line: string })[],
): Row[] {
  const planned = plannedLengths(plan, values);
  const bundles = new Map<string, string>();
  const rows: Row[] = [];
  let cuts = 0;
  const add = (cord: MaterialCut, head: Row, share: Share): void => {
    share.pieces.forEach(({ product, role, each }, at) => {
      const name = bundleName(cord.material, product, role);
      if (!bundles.has(name)) bundles.set(name, `bundle ${bundles.size + 1}`);
      rows.push({
        ...head,
        bundle: bundles.get(name) ?? '',
        material: cord.material,
        units: share.units,
        in_each: each,
        product,
        role,
        opened: at === 0 && head.kind !== 'none' ? share.units : 0,
        planned_cut: planned.get(name) ?? 0,
      });
    });
  };
  for (const cord of report.cords) {
    const uses: Uses = new Map(
      cord.cuts.map((cut) => [
        cut.cutMm,
        cut.for.map(({ product, role, pieces }) => ({ product, role, left: pieces })),
      ]),
    );
    for (const stock of cord.stock) {
      const bought = shopping.find((each) => isCutFrom(each, cord.material, stock));
      const head = {
        kind: stock.kind,
        stock_length:
          stock.stockRow === null
            ? bought === undefined
              ? 0
              : packOf(plan, values, bought)
            : values.number('stock', 'length', stock.stockRow),
        source: stock.stockRow === null ? (bought?.line ?? '') : `stock ${headingRow + 1 + stock.stockRow}`,
      };
      for (const share of shares(stock, uses)) {
        cuts += 1;
        add(cord, { ...head, cut: `cut ${cuts}` }, share);
      }
    }
    for (const [cutMm, left] of uses) {
      for (const each of left.filter((use) => use.left > 0)) {
        cuts += 1;
        const head = { kind: 'none', stock_length: 0, source: 'none', cut: `cut ${cuts}` };
        add(cord, head, { units: 1, pieces: [{ ...each, cutMm, each: each.left }] });
      }
    }
  }
  return rows;
}

/** Shares the pieces of a pattern out to products, length by length of stock; neighbours that come out alike are one. */
function shares(stock: StockCut, uses: Uses): Share[] {
  const found: { units: number; pieces: Share['pieces'] }[] = [];
  for (let unit = 0; unit < stock.times; unit += 1) {
    const pieces = stock.cuts.flatMap(({ cutMm, pieces: wanted }) => {
      let rest = wanted;
      return (uses.get(cutMm) ?? []).flatMap((use) => {
        const each = Math.min(rest, use.left);
        if (each === 0) return [];
        rest -= each;
        use.left -= each;
        return [{ product: use.product, role: use.role, cutMm, each }];
      });
    });
    const before = found.at(-1);
    if (before !== undefined && JSON.stringify(before.pieces) === JSON.stringify(pieces)) before.units += 1;
    else found.push({ units: 1, pieces });
  }
  return found;
}

function isCutFrom(bought: Purchase, material: string, stock: StockCut): boolean {
  // Stock is taken for its whole micrometres, a pack is listed for what it holds.
  return (
    bought.material === material &&
    bought.packMm !== null &&
    Math.abs(bought.packMm - stock.stockMm) < 0.002 &&
    stock.stockRow === null
  );
}

/** What a pack holds, in the cord unit or in pieces, just as its sheet says. */
function packOf(plan: Plan, values: Values, bought: Purchase): number {
  if (bought.packsRow !== null) return values.number('packs', 'pack', bought.packsRow);
  return values.number('materials', 'pack', rowOf(plan, values, 'materials', 'material', bought.material));
}

function rowOf(plan: Plan, values: Values, sheet: string, column: string, name: string): number {
  const count = rowCount(plan, sheet);
  for (let row = 0; row < count; row += 1)
    if (sameKey(textOf(values, sheet, column, row)) === sameKey(name)) return row;
  throw new Error(`No ${name} on the sheet ${sheet}`);
}

function shoppingRow(plan: Plan, values: Values, bought: Purchase & { readonly line: string }): Row {
  return {
    line: bought.line,
    material: bought.material,
    pack: packOf(plan, values, bought),
    packs: bought.packs,
    price_in: bought.packsRow === null ? 'Materials' : 'Packs',
    from_packs: bought.packsRow === null ? 1 : values.number('packs', 'from_packs', bought.packsRow),
  };
}

function bundleName(material: string, product: string, role: string): string {
  return [material, product, role].map(sameKey).join('|');
}

/** The cut lengths of every bundle as the sheets say them, in the length unit. */
function plannedLengths(plan: Plan, values: Values): Map<string, number> {
  const found = new Map<string, number>();
  const text = (sheet: string, column: string, row: number): string => textOf(values, sheet, column, row);
  for (let row = 0; row < rowCount(plan, 'cuts'); row += 1) {
    const name = bundleName(
      text('cuts', 'cord', row),
      text('cuts', 'product', row),
      text('cuts', 'role', row),
    );
    found.set(name, values.number('cuts', 'cut_length', row));
  }
  const lengthPerCord = values.number('rates', 'length_per_cord', 0);
  for (let row = 0; row < rowCount(plan, 'parts'); row += 1) {
    const name = bundleName(text('parts', 'material', row), text('parts', 'product', row), 'part');
    found.set(name, values.number('parts', 'quantity', row) * lengthPerCord);
  }
  return found;
}

function fittingRows(plan: Plan, values: Values, report: CutReport): Row[] {
  const byPiece = new Set(report.parts.map(({ material }) => sameKey(material)));
  const quantities = new Map(report.make.map(({ product, quantity }) => [sameKey(product), quantity]));
  const rows: Row[] = [];
  for (let row = 0; row < rowCount(plan, 'parts'); row += 1) {
    const product = textOf(values, 'parts', 'product', row);
    const material = textOf(values, 'parts', 'material', row);
    const quantity = quantities.get(sameKey(product)) ?? 0;
    if (quantity === 0 || !byPiece.has(sameKey(material))) continue;
    rows.push({ product, material, planned: quantity * values.number('parts', 'quantity', row) });
  }
  return rows;
}
