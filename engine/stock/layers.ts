import { type Exact, exact, nothing } from '../money/exact.ts';
import type { StockMethod } from './move.ts';

/** A part of what is on hand that came in at one cost. Values in smallest coins, not fixed to whole ones. */
export interface Layer {
  readonly quantity: Exact;
  readonly value: Exact;
  /** The invoice it came with; blank where layers have been put together. */
  readonly origin: string;
}

/**
 * What is on hand of one item, by layers. Weighted average is one layer that everything goes into; first in, first
 * out takes the oldest. What is taken beyond that is owed: it has the last known cost until what comes in next says
 * what it did cost.
 */
export class Layers {
  readonly #method: StockMethod;
  #layers: Layer[] = [];
  #owed: { quantity: Exact; value: Exact } = { quantity: nothing, value: nothing };
  #lastUnit: Exact;

  /** @param usualUnit cost of one where none ever came in */
  constructor(method: StockMethod, usualUnit: Exact) {
    this.#method = method;
    this.#lastUnit = usualUnit;
  }

  get layers(): readonly Layer[] {
    return this.#layers;
  }

  /**
   * Takes in a quantity at its cost. What is owed is paid from it first.
   *
   * @param first it is older than all that is there: a sale that was undone
   * @returns how much more than reckoned the owed part has cost in the end
   */
  receive(quantity: Exact, value: Exact, origin: string, first = false): Exact {
    const paid = lesser(quantity, this.#owed.quantity);
    let correction = nothing;
    let rest: Layer = { quantity, value, origin };
    if (paid.gt(0)) {
      const reckoned = part(this.#owed.value, paid, this.#owed.quantity);
      const cost = part(value, paid, quantity);
      correction = cost.minus(reckoned);
      this.#owed = {
        quantity: this.#owed.quantity.minus(paid),
        value: this.#owed.value.minus(reckoned),
      };
      rest = { quantity: quantity.minus(paid), value: value.minus(cost), origin };
    }
    this.#lastUnit = value.div(quantity);
    if (rest.quantity.gt(0)) this.#add(rest, first);
    return correction;
  }

  #add(layer: Layer, first: boolean): void {
    if (this.#method === 'average') {
      this.#layers = [
        {
          quantity: total(this.#layers, 'quantity').plus(layer.quantity),
          value: total(this.#layers, 'value').plus(layer.value),
          origin: '',
        },
      ];
    } else this.#layers = first ? [layer, ...this.#layers] : [...this.#layers, layer];
  }

  /** Takes a quantity out and says what it cost. */
  take(quantity: Exact): Exact {
    let left = quantity;
    let cost = nothing;
    while (left.gt(0)) {
      const [layer] = this.#layers;
      if (layer === undefined) break;
      const taken = lesser(left, layer.quantity);
      cost = cost.plus(this.#takeFrom(0, taken));
      left = left.minus(taken);
    }
    return left.gt(0) ? cost.plus(this.#owe(left, this.#lastUnit)) : cost;
  }

  /**
   * Takes out what goes back to its supplier, at what it came in for.
   *
   * @param unit cost of one when it came in
   */
  giveBack(quantity: Exact, origin: string, unit: Exact): Exact {
    if (this.#method === 'average') {
      const [pool] = this.#layers;
      const held = pool?.quantity ?? nothing;
      const taken = lesser(quantity, held);
      const over = quantity.minus(taken);
      if (pool === undefined || taken.eq(0)) return this.#owe(over, unit);
      // The last of it takes the whole value along, and no other more than there is.
      const cost = taken.eq(held) ? pool.value : lesser(taken.times(unit), pool.value);
      this.#lastUnit = pool.value.div(held);
      this.#layers = taken.eq(held)
        ? []
        : [{ ...pool, quantity: held.minus(taken), value: pool.value.minus(cost) }];
      return over.gt(0) ? cost.plus(this.#owe(over, unit)) : cost;
    }
    let left = quantity;
    let cost = nothing;
    const takeAt = (at: number): void => {
      const taken = lesser(left, this.#layers[at]!.quantity);
      cost = cost.plus(this.#takeFrom(at, taken));
      left = left.minus(taken);
    };
    while (left.gt(0)) {
      const at = this.#layers.findLastIndex((layer) => layer.origin === origin && origin !== '');
      if (at < 0) break;
      takeAt(at);
    }
    // Of that invoice nothing is left: what came in last stands in for it.
    while (left.gt(0) && this.#layers.length > 0) takeAt(this.#layers.length - 1);
    return left.gt(0) ? cost.plus(this.#owe(left, unit)) : cost;
  }

  /** What one would cost that turns up without a cost of its own. */
  unitOfFound(): Exact {
    const last = this.#layers.at(-1);
    return last === undefined ? this.#lastUnit : last.value.div(last.quantity);
  }

  /** Gives all that is there another value, every layer in proportion; returns by how much it moves. */
  revalue(worth: Exact): Exact {
    const before = total(this.#layers, 'value');
    const held = total(this.#layers, 'quantity');
    if (held.eq(0)) return nothing;
    this.#layers = this.#layers.map((layer) => ({
      ...layer,
      value: before.gt(0) ? part(worth, layer.value, before) : part(worth, layer.quantity, held),
    }));
    return total(this.#layers, 'value').minus(before);
  }

  #takeFrom(at: number, quantity: Exact): Exact {
    const layer = this.#layers[at]!;
    this.#lastUnit = layer.value.div(layer.quantity);
    if (quantity.eq(layer.quantity)) {
      this.#layers = this.#layers.filter((_, index) => index !== at);
      return layer.value;
    }
    const cost = part(layer.value, quantity, layer.quantity);
    this.#layers = this.#layers.with(at, {
      ...layer,
      quantity: layer.quantity.minus(quantity),
      value: layer.value.minus(cost),
    });
    return cost;
  }

  #owe(quantity: Exact, unit: Exact): Exact {
    const value = quantity.times(unit);
    this.#owed = { quantity: this.#owed.quantity.plus(quantity), value: this.#owed.value.plus(value) };
    return value;
  }
}

function total(layers: readonly Layer[], what: 'quantity' | 'value'): Exact {
  return layers.reduce((sum, layer) => sum.plus(layer[what]), exact(0));
}

function lesser(one: Exact, other: Exact): Exact {
  return one.lt(other) ? one : other;
}

/** So much of a value as a quantity is of a whole. */
function part(value: Exact, quantity: Exact, whole: Exact): Exact {
  return value.times(quantity).div(whole);
}
