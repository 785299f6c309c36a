import { sameKey } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import type { Solver } from '../solver/solver.ts';
import { type CutBookOptions, cutMaterial } from './cutMaterial.ts';
import type { CutReport, MaterialCut, PartNeed, Purchase } from './cutReport.ts';
import { type Demand, demands } from './demand.ts';
import type { Order } from './order.ts';
import { packMix } from './packMix.ts';
import { type Supply, supplies } from './supplies.ts';
import { packsFor } from './tiers.ts';

/**
 * From a calculated book and an order: what to cut from which stock, and what to buy for it. Cords are cut one
 * by one, and each is bought at the least cost; then as little stock as possible is opened for it.
 */
export async function cutBook(
  plan: Plan,
  values: Values,
  order: Order,
  solver: Solver,
  options: CutBookOptions,
): Promise<CutReport> {
  const supply = supplies(plan, values);
  const needs = demands(plan, values, order, (material) => supply.get(sameKey(material))?.byLength === true);
  const cords: MaterialCut[] = [];
  const parts: PartNeed[] = [];
  for (const [key, own] of supply) {
    const need = needs.get(key);
    if (need === undefined) continue;
    if (own.byLength) {
      if (need.cuts.length > 0) cords.push(await cutMaterial(own, need.cuts, plan.settings, solver, options));
    } else if (need.pieces > 0) parts.push(partNeed(own, need, plan.settings.currencyDigits));
  }
  const shopping = [...cords, ...parts].flatMap((each) => each.buy);
  const wasteMm = cords.reduce((sum, cord) => sum + cord.wasteMm, 0);
  const goneMm = cords.reduce((sum, cord) => sum + cord.openedMm - cord.keptMm, 0);
  return {
    workshop: plan.settings.workshop,
    currency: plan.settings.currency,
    make: order,
    keepMm: options.keepMm,
    cutLossMm: options.cutLossMm,
    stopped: options.signal?.aborted === true,
    cords,
    parts,
    shopping,
    shoppingCost: inMoney(
      shopping.reduce((sum, each) => sum + Math.round(each.cost * 10 ** plan.settings.currencyDigits), 0),
      plan.settings.currencyDigits,
    ),
    wasteRatio: goneMm === 0 ? 0 : wasteMm / goneMm,
    proven: cords.every((cord) => cord.buyQuality.proven && cord.openedQuality.proven),
    complete: cords.every((cord) => cord.uncut.length === 0),
  };
}

/** Smallest coins as money. */
function inMoney(coins: number, digits: number): number {
  return coins / 10 ** digits;
}

const thousandths = 1000;

function partNeed(supply: Supply, need: Demand, digits: number): PartNeed {
  const onHandPieces = supply.onHand.reduce((sum, each) => sum + each.holds * each.count, 0);
  const missingPieces = Math.max(0, Math.ceil(need.pieces - onHandPieces));
  // In thousandths of a piece, whole: a tube holds 2.5, and floats have no common step.
  const mix = packMix(
    missingPieces * thousandths,
    supply.packs.map((pack) => ({
      ...pack,
      holds: Math.max(1, Math.floor(pack.holds * thousandths + 1e-6)),
    })),
  );
  const buy = supply.packs.flatMap((pack, at): Purchase[] => {
    const packs = mix.packs[at]!;
    if (packs === 0) return [];
    const { cost, costEach, tier } = packsFor(pack.tiers, packs);
    return [
      {
        material: supply.material,
        packMm: null,
        packPieces: pack.holds,
        packs,
        packsRow: tier?.row ?? null,
        costEach: inMoney(costEach, digits),
        cost: inMoney(cost, digits),
      },
    ];
  });
  return {
    material: supply.material,
    pieces: need.pieces,
    onHandPieces,
    missingPieces,
    buy,
    buyCost: inMoney(mix.cost, digits),
  };
}
