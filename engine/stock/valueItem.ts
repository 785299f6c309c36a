import { periodEnd, periodStart } from '../book/measures/day.ts';
import { type Exact, exact, nothing, wholeCoins } from '../money/exact.ts';
import { gather } from './gather.ts';
import { type Layer, Layers } from './layers.ts';
import type { Move, Shortage, StockMethod, StockTiming, ValuedMove } from './move.ts';

export interface ValuingRule {
  readonly method: StockMethod;
  readonly timing: StockTiming;
  readonly periodMonths: number;
}

export interface ValuedItem {
  /** In the order of days, with corrections behind what brought them. */
  readonly moves: readonly ValuedMove[];
  readonly shortages: readonly Shortage[];
  readonly layers: readonly Layer[];
}

/**
 * Values the movements of one item.
 *
 * Every movement is fixed to whole coins so that all of them so far are right to within half a coin: what one is
 * rounded by is carried into the next, and nothing drifts however many there are.
 *
 * Periodic is perpetual over a period whose receipts all come first: the average is then that of the whole period,
 * and the oldest are the oldest of it.
 *
 * @param moves of one item, in the order of days
 * @param usualUnit smallest coins for one, where nothing ever came in that says what it cost
 */
export function valueItem(moves: readonly Move[], usualUnit: Exact, rule: ValuingRule): ValuedItem {
  const valuing = new Valuing(new Layers(rule.method, usualUnit));
  const periods =
    rule.timing === 'perpetual' ? [moves] : byPeriod(moves, rule.periodMonths).map(receiptsFirst);
  const valued = new Map<Move, readonly ValuedMove[]>();
  for (const move of periods.flat()) valued.set(move, valuing.value(move));
  const inOrder = moves.flatMap((move) => valued.get(move) ?? []);
  return {
    moves: inOrder,
    shortages: shortages(moves, rule),
    layers: valuing.layers.layers,
  };
}

/** What comes with a cost of its own. */
const receipts: readonly Move['what'][] = ['opening', 'bought', 'returned to supplier', 'made'];

function receiptsFirst(moves: readonly Move[]): Move[] {
  const isReceipt = (move: Move): boolean => receipts.includes(move.what);
  return [...moves.filter(isReceipt), ...moves.filter((move) => !isReceipt(move))];
}

function byPeriod(moves: readonly Move[], months: number): Move[][] {
  const periods = new Map<number, Move[]>();
  for (const move of moves) gather(periods, periodStart(move.day, months), move);
  return [...periods.values()];
}

/** Movements that left stock below nothing; where only periods are reckoned, periods that did. */
function shortages(moves: readonly Move[], { timing, periodMonths }: ValuingRule): Shortage[] {
  const found: Shortage[] = [];
  let quantity = nothing;
  moves.forEach((move, at) => {
    quantity = quantity.plus(move.quantity);
    const next = moves[at + 1];
    const isLast = next === undefined || next.day > periodEnd(move.day, periodMonths);
    if (quantity.gte(0) || (timing === 'periodic' ? !isLast : move.quantity.gte(0))) return;
    found.push({ item: move.item, day: move.day, below: quantity.negated(), place: move.place });
  });
  return found;
}

interface Sold {
  readonly channel: string;
  quantity: Exact;
  value: Exact;
}

class Valuing {
  readonly layers: Layers;
  /** All changes of value so far, and what has been told of them in whole coins. */
  #reckoned: Exact = nothing;
  #told = 0;
  readonly #bought = new Map<string, { quantity: Exact; value: Exact }>();
  readonly #sold: Sold[] = [];

  constructor(layers: Layers) {
    this.layers = layers;
  }

  value(move: Move): ValuedMove[] {
    const { what } = move;
    if (what === 'revalued') return [this.#tell(move, this.layers.revalue(exact(move.worthCoins ?? 0)))];
    if (what === 'returned to supplier') return [this.#tell(move, this.#giveBack(move).negated())];
    if (move.quantity.gt(0)) return this.#receive(move);
    if (move.quantity.eq(0)) return [this.#tell(move, nothing)];
    const cost = this.layers.take(move.quantity.negated());
    if (what === 'sold')
      this.#sold.push({ channel: move.origin, quantity: move.quantity.negated(), value: cost });
    return [this.#tell(move, cost.negated())];
  }

  #receive(move: Move): ValuedMove[] {
    const value =
      move.ownCoins !== undefined
        ? exact(move.ownCoins)
        : move.what === 'returned by buyer'
          ? this.#costOfReturned(move)
          : move.quantity.times(this.layers.unitOfFound());
    if (move.what === 'bought') {
      const before = this.#bought.get(move.origin) ?? { quantity: nothing, value: nothing };
      this.#bought.set(move.origin, {
        quantity: before.quantity.plus(move.quantity),
        value: before.value.plus(value),
      });
    }
    const isOldest = move.what === 'returned by buyer';
    const correction = this.layers.receive(move.quantity, value, move.origin, isOldest);
    const told = [this.#tell(move, value)];
    if (correction.eq(0)) return told;
    const corrected: Move = { ...move, what: 'correction', quantity: nothing };
    return [...told, this.#tell(corrected, correction.negated())];
  }

  /** At what its invoice brought it in for; where that is not known, at what the supplier paid back. */
  #giveBack(move: Move): Exact {
    const quantity = move.quantity.negated();
    const bought = move.origin === '' ? undefined : this.#bought.get(move.origin);
    const unit =
      bought === undefined
        ? exact(move.ownCoins ?? 0)
            .negated()
            .div(quantity)
        : bought.value.div(bought.quantity);
    return this.layers.giveBack(quantity, move.origin, unit);
  }

  /** What was sold last in the channel comes back first, at its own cost; then what was sold elsewhere. */
  #costOfReturned(move: Move): Exact {
    let left = move.quantity;
    let cost = nothing;
    const sameChannel = (sold: Sold): boolean => sold.channel === move.origin;
    for (const fits of [sameChannel, () => true]) {
      for (let at = this.#sold.length - 1; at >= 0 && left.gt(0); at -= 1) {
        const sold = this.#sold[at];
        if (sold === undefined || !sold.quantity.gt(0) || !fits(sold)) continue;
        const back = left.lt(sold.quantity) ? left : sold.quantity;
        const value = sold.value.times(back).div(sold.quantity);
        sold.quantity = sold.quantity.minus(back);
        sold.value = sold.value.minus(value);
        cost = cost.plus(value);
        left = left.minus(back);
      }
    }
    return left.gt(0) ? cost.plus(left.times(this.layers.unitOfFound())) : cost;
  }

  #tell(move: Move, change: Exact): ValuedMove {
    this.#reckoned = this.#reckoned.plus(change);
    const whole = wholeCoins(this.#reckoned);
    const valueCoins = whole - this.#told + 0;
    this.#told = whole;
    return { ...move, valueCoins };
  }
}
