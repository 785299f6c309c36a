import { sameKey } from '../book/book.ts';
import { convertLength } from '../book/measures/measure.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import type { CutReport, PartNeed, Purchase } from './cutReport.ts';
import { costBeside, type Lot, lot, lotsOf, merged, ownCost } from './stockLots.ts';
import { type StockChange, writtenStock } from './writtenStock.ts';

/**
 * Takes a solved batch off the stock: what is cut is shortened or gone, ends that are long enough come back at
 * the cost of what they were cut from, and what is left of bought packs is added.
 *
 * @param text of the book's stock.csv; undefined where there is none
 * @param plan the book without a batch, and its values: what the report was made from
 */
export function stockChanges(
  text: string | undefined,
  plan: Plan,
  values: Values,
  report: CutReport,
): { readonly text: string; readonly changes: readonly StockChange[] } {
  const { settings } = plan;
  const lots = lotsOf(plan, values);
  const added: Lot[] = [];
  const add = (material: string, holds: number, count: number, kind: string, cost: number | null): void => {
    if (count > 0 && holds > 0) added.push(lot(material, null, holds, count, kind, cost));
  };
  takeCords(plan, values, report, lots, add);
  for (const part of report.parts) takePieces(part, lots, add, ownCost(plan, values, part.material));
  const kept = merged(lots, added, plan, values);
  return writtenStock(text, lots, kept, plan, settings);
}

type Add = (material: string, holds: number, count: number, kind: string, cost: number | null) => void;

function takeCords(plan: Plan, values: Values, report: CutReport, lots: readonly Lot[], add: Add): void {
  const toCord = (mm: number): number => convertLength(mm, 'mm', plan.settings.cordUnit);
  for (const cord of report.cords) {
    const own = ownCost(plan, values, cord.material);
    const opened = new Map<Purchase, number>();
    const ends: { readonly from: Lot; readonly holds: number; readonly times: number }[] = [];
    for (const stock of cord.stock) {
      const left = stock.leftIs === 'kept' ? toCord(stock.leftMm) : 0;
      if (stock.stockRow !== null) {
        const from = lots[stock.stockRow];
        if (from === undefined) throw new Error(`No row ${stock.stockRow} of stock`);
        from.count -= stock.times;
        if (left > 0) ends.push({ from, holds: left, times: stock.times });
        continue;
      }
      const bought = cord.buy.find((each) => Math.abs((each.packMm ?? 0) - stock.stockMm) < 0.002);
      if (bought === undefined) throw new Error(`A pack of ${cord.material} is cut that is not bought`);
      opened.set(bought, (opened.get(bought) ?? 0) + stock.times);
      add(
        cord.material,
        left,
        stock.times,
        'spool',
        costBeside(own, paidEach(bought, toCord(bought.packMm ?? 1))),
      );
    }
    for (const { from, holds, times } of ends) {
      // A spool stays one, and so does an offcut; what is cut off a hank is no hank any more.
      const kind = from.first.kind === 'hank' ? 'offcut' : from.first.kind;
      if (from.count === 0 && from.row !== null) {
        // Nothing whole is left in this row: it is shortened.
        from.holds = holds;
        from.count = times;
        from.kind = kind;
      } else add(from.material, holds, times, kind, from.cost);
    }
    for (const bought of cord.buy) {
      const holds = toCord(bought.packMm ?? 0);
      const whole = bought.packs - (opened.get(bought) ?? 0);
      add(cord.material, holds, whole, 'spool', costBeside(own, paidEach(bought, holds)));
    }
  }
}

/** Pieces are taken from the first boxes first, and then from what is bought. */
function takePieces(part: PartNeed, lots: readonly Lot[], add: Add, own: number): void {
  let rest = part.pieces;
  const open = (holds: number, count: number): { readonly whole: number; readonly left: number } => {
    const taken = Math.min(rest, holds * count);
    const emptied = Math.floor(taken / holds + 1e-9);
    const begun = taken - emptied * holds > 1e-9;
    rest -= taken;
    return { whole: count - emptied - (begun ? 1 : 0), left: begun ? holds - (taken - emptied * holds) : 0 };
  };
  for (const from of lots) {
    if (rest <= 0) break;
    if (sameKey(from.material) !== sameKey(part.material) || from.count === 0) continue;
    const { whole, left } = open(from.holds, from.count);
    from.count = whole;
    if (left === 0) continue;
    if (whole > 0) add(from.material, left, 1, from.kind, from.cost);
    else {
      from.holds = left;
      from.count = 1;
    }
  }
  for (const bought of part.buy) {
    const holds = bought.packPieces ?? 0;
    const cost = costBeside(own, paidEach(bought, holds));
    const { whole, left } = open(holds, bought.packs);
    add(part.material, holds, whole, 'box', cost);
    add(part.material, left, 1, 'box', cost);
  }
}

function paidEach(bought: Purchase, holds: number): number {
  return bought.costEach / holds;
}
