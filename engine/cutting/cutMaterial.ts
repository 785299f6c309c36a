import { convertLength } from '../book/measures/measure.ts';
import type { Settings } from '../book/settings.ts';
import type { Solver } from '../solver/solver.ts';
import { unitsByStock } from './binPlan.ts';
import type { MaterialCut, Pieces, Purchase, Quality, StockCut } from './cutReport.ts';
import { type CutResult, cutStock } from './cutStock.ts';
import { type Cut, micrometresDown, micrometresUp } from './demand.ts';
import { firstFit } from './firstFit.ts';
import type { Supply } from './supplies.ts';
import {
  type BinGroup,
  type CutPlan,
  type CutTask,
  leftUm,
  type StockType,
  type StopSignal,
} from './task.ts';
import { packsFor } from './tiers.ts';

export interface CutBookOptions {
  /** What is left over of a stock goes back to it where it is at least so long; shorter is waste. */
  readonly keepMm: number;
  /** Lost at every cut, beyond the cut lengths. */
  readonly cutLossMm: number;
  readonly signal?: StopSignal;
  readonly progress?: (state: {
    readonly material: string;
    readonly cost: number;
    readonly bound: number;
  }) => void;
}

/**
 * Plans one cord in two steps. First what is bought, at the least cost, where cord on hand is free; then, with
 * those packs at hand too, which stock is cut, so that as little length as possible is opened.
 */
export async function cutMaterial(
  supply: Supply,
  cuts: readonly Cut[],
  settings: Settings,
  solver: Solver,
  options: CutBookOptions,
): Promise<MaterialCut> {
  const { onHand, buying, opening, bought, plan } = await plans(supply, cuts, settings, solver, options);
  const task = buying.task;
  const coin = 10 ** settings.currencyDigits;
  // In whole micrometres as well, or an end of just that length would be kept or not by its last binary digit.
  const keepUm = Math.round(options.keepMm * 1000);
  const mm = (um: number): number => um / 1000;
  const pieces = (counts: readonly number[]): Pieces[] =>
    counts.flatMap((count, at) =>
      count > 0 ? [{ cutMm: mm(task.pieces[at]!.lengthUm), pieces: count }] : [],
    );
  const mmPerCord = convertLength(1, settings.cordUnit, 'mm');
  const costPerMm = (at: number): number => {
    const own = supply.onHand[at];
    if (own !== undefined && at < onHand) return own.unitCost / mmPerCord;
    const pack = supply.packs[at - onHand];
    if (pack === undefined) return 0;
    return packsFor(pack.tiers, bought[at - onHand]!).costEach / coin / pack.holds / mmPerCord;
  };
  const lengthOf = (list: readonly Pieces[]): number =>
    list.reduce((sum, each) => sum + each.cutMm * each.pieces, 0);

  const stock = plan.groups.map((group): StockCut => {
    const left = mm(leftUm(task, group));
    return {
      from: group.stock < onHand ? 'on hand' : 'bought',
      kind: group.stock < onHand ? supply.onHand[group.stock]!.kind : 'pack',
      stockRow: group.stock < onHand ? supply.onHand[group.stock]!.row : null,
      stockMm: mm(task.stocks[group.stock]!.lengthUm),
      times: group.times,
      cuts: pieces(group.counts),
      leftMm: left,
      leftIs: left === 0 ? 'nothing' : leftUm(task, group) >= keepUm ? 'kept' : 'waste',
      costPerMm: costPerMm(group.stock),
    };
  });
  const total = (of: (cut: StockCut) => number): number =>
    stock.reduce((sum, cut) => sum + of(cut) * cut.times, 0);
  const missing =
    buying.result.plan.cost > 0 || bought.some((packs) => packs > 0) ? pieces(beyond(task, onHand)) : [];
  const uncut = pieces(plan.uncut);
  const buy = supply.packs.flatMap((pack, at): Purchase[] => {
    const packs = bought[at]!;
    if (packs === 0) return [];
    const { cost, costEach, tier } = packsFor(pack.tiers, packs);
    return [
      {
        material: supply.material,
        packMm: convertLength(pack.holds, settings.cordUnit, 'mm'),
        packPieces: null,
        packs,
        packsRow: tier?.row ?? null,
        costEach: costEach / coin,
        cost: cost / coin,
      },
    ];
  });
  const openedMm = total((cut) => cut.stockMm);
  const kept = (cut: StockCut): number => (cut.leftIs === 'kept' ? cut.leftMm : 0);
  const keptMm = total(kept);
  // Whole micrometres, without the dust of their sums.
  const wasteUm = Math.round(total((cut) => cut.stockMm - kept(cut) - lengthOf(cut.cuts)) * 1000);
  const wasteMm = mm(Math.max(0, wasteUm));
  return {
    material: supply.material,
    cuts: cuts.map((cut) => ({ cutMm: mm(cut.lengthUm), pieces: cut.pieces, for: cut.for })),
    cutMm: cuts.reduce((sum, cut) => sum + mm(cut.lengthUm) * cut.pieces, 0),
    stock,
    missing,
    missingMm: lengthOf(missing),
    buy,
    buyCost: buying.result.plan.cost / coin,
    buyQuality: quality(buying.result, coin),
    uncut,
    uncutCost: (lengthOf(uncut) / mmPerCord) * supply.unitValue,
    openedMm,
    openedQuality: quality(opening, 1000),
    keptMm,
    keptValue: total((cut) => kept(cut) * cut.costPerMm),
    goneCost: total((cut) => (cut.stockMm - kept(cut)) * cut.costPerMm),
    wasteMm,
    wasteRatio: openedMm === keptMm ? 0 : wasteMm / (openedMm - keptMm),
  };
}

interface Plans {
  /** So many stocks of the task are on hand; packs follow. */
  readonly onHand: number;
  readonly buying: { readonly task: CutTask; readonly result: CutResult };
  readonly opening: CutResult;
  /** Packs bought, by their place among the supply's packs. */
  readonly bought: readonly number[];
  readonly plan: CutPlan;
}

async function plans(
  supply: Supply,
  cuts: readonly Cut[],
  settings: Settings,
  solver: Solver,
  options: CutBookOptions,
): Promise<Plans> {
  const onHand = supply.onHand.map(
    (each): StockType => ({
      lengthUm: micrometresDown(each.holds, settings.cordUnit),
      limit: each.count,
      tiers: [{ fromPacks: 1, costEach: 0 }],
      label: each.kind,
    }),
  );
  const packs = supply.packs.map(
    (pack): StockType => ({
      lengthUm: micrometresDown(pack.holds, settings.cordUnit),
      limit: null,
      tiers: pack.tiers,
      label: 'pack',
    }),
  );
  const task: CutTask = {
    pieces: cuts.map((cut) => ({ lengthUm: cut.lengthUm, count: cut.pieces, label: `${cut.lengthUm} um` })),
    stocks: [...onHand, ...packs],
    kerfUm: micrometresUp(options.cutLossMm, 'mm'),
  };
  // What no stock is long enough for would only hide how good the rest of the plan is.
  const longest = Math.max(...task.stocks.map((stock) => stock.lengthUm));
  const able: CutTask = {
    ...task,
    pieces: task.pieces.map((piece) => ({ ...piece, count: piece.lengthUm <= longest ? piece.count : 0 })),
  };
  const told =
    options.progress &&
    ((state: { cost: number; bound: number }): void =>
      options.progress?.({ material: supply.material, ...state }));
  const how = {
    ...(options.signal === undefined ? {} : { signal: options.signal }),
    ...(told === undefined ? {} : { progress: told }),
  };
  const buying = await cutStock(able, solver, how);
  const units = unitsByStock(able, buying.plan.groups);
  const bought = supply.packs.map((pack, at) => packsFor(pack.tiers, units[onHand.length + at]!).bought);
  const opened: CutTask = {
    ...able,
    stocks: able.stocks.map((stock, at) => ({
      ...stock,
      limit: at < onHand.length ? stock.limit : bought[at - onHand.length]!,
      tiers: [{ fromPacks: 1, costEach: stock.lengthUm }],
    })),
  };
  const begin = buying.plan.groups.flatMap((group: BinGroup) =>
    Array.from({ length: group.times }, () => ({ stock: group.stock, counts: group.counts })),
  );
  const opening = await cutStock(opened, solver, { ...how, begin });
  const uncut = task.pieces.map(
    (piece, at) => opening.plan.uncut[at]! + piece.count - able.pieces[at]!.count,
  );
  return {
    onHand: onHand.length,
    buying: { task, result: buying },
    opening,
    bought,
    plan: { ...opening.plan, uncut },
  };
}

/** Pieces that stock on hand alone leaves uncut, though a shorter list may exist: the longest are cut first. */
function beyond(task: CutTask, onHand: number): readonly number[] {
  const longest = Math.max(...task.stocks.map((stock) => stock.lengthUm));
  const alone = firstFit({ ...task, stocks: task.stocks.slice(0, onHand) });
  return alone.uncut.map((count, at) => (task.pieces[at]!.lengthUm <= longest ? count : 0));
}

function quality({ plan, bound, proven }: CutResult, unit: number): Quality {
  return {
    bound: bound / unit,
    proven,
    gapRatio: plan.cost <= bound ? 0 : bound === 0 ? null : plan.cost / bound - 1,
  };
}
