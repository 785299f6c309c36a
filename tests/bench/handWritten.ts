import type { Values } from '../../engine/calc/values.ts';
import { ceilingTo, roundTo, roundUpTo } from '../../engine/money/rounding.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { cordRows, type Draws, rowsOf } from './draws.ts';

/**
 * The margins of every product in every channel, written by hand over typed arrays as a person would who knows the
 * sheets: the peer of a compiled program, and nothing that the engine uses.
 *
 * @returns from a row of figures to the margins, as the program's `run`
 */
export function handWritten(
  plan: Plan,
  values: Values,
  { from }: Draws,
): (figures: Float64Array, out: Float64Array) => void {
  const column = (sheet: string, id: string): Float64Array =>
    Float64Array.from(rowsOf(plan, sheet), (row) => values.number(sheet, id, row));
  const keys = (sheet: string, id: string): string[] =>
    rowsOf(plan, sheet).map((row) => String(values.get(sheet, id, row) ?? '').toLowerCase());
  const rate = (id: string): number => values.number('rates', id, 0);
  /** For each row, the row of another sheet that it names. */
  const named = (sheet: string, id: string, other: string, key: string): Int32Array => {
    const known = new Map(keys(other, key).map((name, row) => [name, row]));
    return Int32Array.from(keys(sheet, id), (name) => known.get(name) ?? -1);
  };

  const digits = rate('money_digits');
  const cutStep = rate('cut_step');
  const lengthPerCord = rate('length_per_cord');
  const chance = rate('chance_of_short_percent');
  const shortFor1 = (cutLength: number): number => (cutLength * chance) / (1 - chance);
  const onCosts = 1 + rate('on_costs_percent');
  const overheadPerHour = rate('overhead_per_hour');
  const minutesPerHour = rate('minutes_per_hour');

  const price = column('materials', 'pack_price');
  const freight = column('materials', 'freight');
  const duty = column('materials', 'duty_percent').map((each) => 1 + each);
  const tax = column('materials', 'unreclaimed_tax_percent').map((each) => 1 + each);
  const pack = column('materials', 'pack');
  const cords = Int32Array.from(cordRows(plan, values));
  const materialCost = new Float64Array(price.length);

  const cutProduct = named('cuts', 'product', 'products', 'product');
  const cutCord = named('cuts', 'cord', 'materials', 'material');
  const roles = keys('cuts', 'role');
  /** 1 where the take-up of the product counts: not in the core, a stripe or a band. */
  const isWorked = Uint8Array.from(roles, (role) => Number(!['core', 'stripe', 'band'].includes(role)));
  const isCore = Uint8Array.from(roles, (role) => Number(role === 'core'));
  const pieces = column('cuts', 'pieces');
  const strands = column('cuts', 'strands');
  const share = column('cuts', 'share');
  const cutTakeUp = column('cuts', 'take_up');
  const hitched = column('cuts', 'hitched');
  const joined = column('cuts', 'joined');
  const inEnds = column('cuts', 'in_ends');
  const spare = column('cuts', 'spare');
  const trim = column('cuts', 'trim');

  const wovenLength = column('products', 'woven_length');
  const extraShare = column('products', 'extra_share');
  const leftShare = column('products', 'left_share');
  const spread = column('products', 'spread');
  const layers = column('products', 'layers');
  const batchSize = column('products', 'batch_size');
  const minimumPrice = column('products', 'minimum_price');
  const productWeave = named('products', 'weave', 'weaves', 'weave');
  const products = wovenLength.length;

  const partProduct = named('parts', 'product', 'products', 'product');
  const partMaterial = named('parts', 'material', 'materials', 'material');
  const quantity = column('parts', 'quantity');

  const workProduct = named('work', 'for', 'products', 'product');
  const workWeave = named('work', 'for', 'weaves', 'weave');
  const weaves = rowsOf(plan, 'weaves').length;
  const weaveMinutes = [0, 1, 2].map(() => new Float64Array(weaves));
  const ownMinutes = [0, 1, 2].map(() => new Float64Array(products));
  const [weaveBatch, weavePiece, weaveLong] = weaveMinutes as [Float64Array, Float64Array, Float64Array];
  const [ownBatch, ownPiece, ownLong] = ownMinutes as [Float64Array, Float64Array, Float64Array];

  const priceProduct = named('prices', 'product', 'products', 'product');
  const priceChannel = named('prices', 'channel', 'channels', 'channel');
  const wantedMargin = column('prices', 'wanted_margin');
  const askingSet = Float64Array.from(rowsOf(plan, 'prices'), (row) => {
    const set = values.get('prices', 'asking_set', row);
    return typeof set === 'number' ? set : -1;
  });
  const sellingFixed = column('channels', 'selling_fixed');
  const feeShare = column('channels', 'fee_share');
  const listFactor = column('channels', 'list_factor');
  const ending = column('channels', 'price_ending');
  const step = column('channels', 'price_step');
  const discount = column('channels', 'wholesale_discount_percent');
  const channelTax = column('channels', 'tax');
  const isTaxInside = Uint8Array.from(keys('channels', 'prices_include_tax'), (word) =>
    Number(word === 'yes'),
  );
  const feeOnNet = column('channels', 'fee_on_net');
  const feeOnGross = column('channels', 'fee_on_gross');
  const feeFixed = column('channels', 'fee_fixed');

  const cordCost = new Float64Array(products);
  const partCost = new Float64Array(products);
  const unitCost = new Float64Array(products);

  return (figures, out) => {
    for (let k = 0; k < cords.length; k += 1) price[cords[k]!] = figures[from.price + k]!;
    for (let m = 0; m < price.length; m += 1) {
      const landed = roundTo((price[m]! + freight[m]!) * duty[m]! * tax[m]!, digits);
      materialCost[m] = landed / (pack[m]! * (1 - figures[from.waste + m]!));
    }

    cordCost.fill(0);
    for (let c = 0; c < cutCord.length; c += 1) {
      const p = cutProduct[c]!;
      const takeUp = isWorked[c] === 1 ? figures[from.takeUp + p]! * share[c]! : cutTakeUp[c]!;
      const woven = strands[c]! * takeUp * wovenLength[p]!;
      const inPiece = woven + hitched[c]! + joined[c]! + inEnds[c]!;
      const extra = isCore[c] === 1 ? 0 : woven * extraShare[p]!;
      let cutLength = 0;
      let offcut = 0;
      if (pieces[c]! * inPiece > 0) {
        cutLength = ceilingTo(inPiece + extra + spare[c]! + trim[c]!, cutStep);
        offcut = cutLength - inPiece + (isCore[c] === 1 ? 0 : woven * (leftShare[p]! - extraShare[p]!));
      }
      const lost = spread[p]! > 0 ? shortFor1(cutLength) : 0;
      const unit = share[c]! > 0 ? materialCost[cutCord[c]!]! : 0;
      const inside = ((pieces[c]! * (cutLength - offcut)) / lengthPerCord) * unit;
      const away = ((pieces[c]! * (offcut + lost)) / lengthPerCord) * unit;
      cordCost[p]! += inside + away;
    }

    partCost.fill(0);
    for (let k = 0; k < quantity.length; k += 1) {
      partCost[partProduct[k]!]! += quantity[k]! * materialCost[partMaterial[k]!]!;
    }

    for (const minutes of weaveMinutes) minutes.fill(0);
    for (const minutes of ownMinutes) minutes.fill(0);
    for (let w = 0; w < workProduct.length; w += 1) {
      const p = workProduct[w]!;
      const at = p >= 0 ? p : workWeave[w]!;
      (p >= 0 ? ownBatch : weaveBatch)[at]! += figures[from.batch + w]!;
      (p >= 0 ? ownPiece : weavePiece)[at]! += figures[from.piece + w]!;
      (p >= 0 ? ownLong : weaveLong)[at]! += figures[from.length + w]!;
    }

    const labourPerHour = figures[from.wage]! * onCosts;
    for (let p = 0; p < products; p += 1) {
      const w = productWeave[p]!;
      const minutes =
        (ownBatch[p]! + weaveBatch[w]!) / batchSize[p]! +
        ownPiece[p]! +
        weavePiece[w]! +
        (ownLong[p]! + weaveLong[w]!) * wovenLength[p]! * layers[p]!;
      const hours = minutes / minutesPerHour;
      unitCost[p] = cordCost[p]! + partCost[p]! + hours * labourPerHour + hours * overheadPerHour;
    }

    for (let r = 0; r < priceProduct.length; r += 1) {
      const c = priceChannel[r]!;
      const p = priceProduct[r]!;
      const unit = unitCost[p]!;
      let asking = askingSet[r]!;
      if (asking < 0) {
        const room = 1 - feeShare[c]! - wantedMargin[r]!;
        const target =
          roundTo(room, 9) > 0 ? (Math.max(0, unit + sellingFixed[c]!) / room) * listFactor[c]! : 0;
        const least = roundUpTo(roundTo(Math.max(target, minimumPrice[p]!), 9), digits);
        asking = ceilingTo(Math.max(0, least - ending[c]!), step[c]!) + ending[c]!;
      }
      asking = roundTo(asking, digits);
      const billed = roundTo(asking * (1 - discount[c]!), digits);
      const inside =
        isTaxInside[c] === 1 ? roundTo((billed * channelTax[c]!) / (1 + channelTax[c]!), digits) : 0;
      const net = billed - inside;
      const gross = isTaxInside[c] === 1 ? billed : net * (1 + channelTax[c]!);
      const fees = net * feeOnNet[c]! + gross * feeOnGross[c]! + feeFixed[c]!;
      const profit = net - fees - (sellingFixed[c]! - feeFixed[c]!) - unit;
      out[r] = net > 0 ? profit / net : 0;
    }
  };
}
