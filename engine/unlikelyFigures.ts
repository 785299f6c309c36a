import { sameKey } from './book/book.ts';
import { convertLength, lengthUnit, type Measure, parseMeasure } from './book/measures/measure.ts';
import { numberText } from './book/measures/numberText.ts';
import type { Place, Problem } from './book/problems/problem.ts';
import { farFrom, unlikely } from './book/problems/unlikely.ts';
import type { Values } from './calc/values.ts';
import { rowCount, textOf } from './cutting/supplies.ts';
import type { Priced } from './priceBook.ts';
import type { Plan } from './sheets/plan.ts';
import { showValue } from './sheets/showValue.ts';

/** Shorter measures in a name are more often widths and thicknesses than lengths of the piece. */
const shortestMm = 60;
/** A loop is named by its drop, and is somewhat more than twice as long; a cuff may be half of what it is named by. */
const [leastShare, greatestShare] = [0.5, 2.5];
/** So near to its name a length is beyond doubt, with hardware and ease. */
const [nearFrom, nearTo] = [0.65, 1.55];

/**
 * Figures of the plan that can be true and are more often slips: a length that its product's own name or size speaks
 * against, and a pack that costs more than five times, or less than a fifth, of what others like it cost. To look at,
 * never an error.
 */
export function unlikelyFigures({ plan, values }: Priced): Problem[] {
  if (plan === undefined || values === undefined) return [];
  return [...lengthsAgainstNames(plan, values), ...pricesFarFromOthers(plan, values)];
}

/** Lengths that a text names, such as the 8 in of “Bracelet 8 in”; “a set of 5 in a box” names none. */
function lengthsIn(text: string, plan: Plan): Measure[] {
  const written =
    /(?<![\p{L}\d.,/])(\d[\d\s.,/]*)(mm|cm|m|in|inch|inches|ft|foot|feet|yd|["″])(?![\p{L}\d])(?!\s+(?:a|an|the|one|each|all|box|set|pack|gift)\b)/giu;
  return [...text.matchAll(written)].flatMap(([, number = '', unit = '']) => {
    const measure = parseMeasure(`${number.trim()} ${unit}`, plan.settings.decimal);
    return measure?.unit === undefined || lengthUnit(unit) === undefined ? [] : [measure];
  });
}

const inMm = ({ value, unit }: Measure): number => convertLength(value, unit ?? 'mm', 'mm');

function lengthsAgainstNames(plan: Plan, values: Values): Problem[] {
  const { settings } = plan;
  const sheet = plan.sheets.find(({ id }) => id === 'products');
  const told = new Set<string>();
  return Array.from({ length: sheet?.rowCount ?? 0 }, (_, row) => row).flatMap((row) => {
    const texts = ['size', 'product', 'name'].map((column) => textOf(values, 'products', column, row));
    const named = texts.flatMap((text) => lengthsIn(text, plan)).filter((each) => inMm(each) >= shortestMm);
    const lengths = ['finished', 'woven_length', 'body_measure']
      .map((column) => ({ column, value: values.number('products', column, row) }))
      .filter(({ value }) => value > 0)
      .map((each) => ({ ...each, mm: convertLength(each.value, settings.lengthUnit, 'mm') }));
    const [first] = named;
    const finished = lengths.find(({ column }) => column === 'finished');
    if (first === undefined || finished === undefined) return [];
    const isWithin = (from: number, to: number): boolean =>
      named.some((each) => lengths.some(({ mm }) => mm >= inMm(each) * from && mm <= inMm(each) * to));
    if (isWithin(nearFrom, nearTo)) return [];
    const isSlip = named.some((each) => lengths.some(({ mm }) => isDigitMore(each, mm)));
    if (!isSlip && isWithin(leastShare, greatestShare)) return [];
    const place = sheet?.places[row] ?? { file: 'products.csv' };
    const id = `${place.row}`;
    if (told.has(id)) return [];
    told.add(id);
    const setBy = ['woven_length_set', 'finished_length', 'measure'].find(
      (column) => values.number('products', column, row) > 0,
    );
    const unit = settings.lengthUnit;
    const shown = `${showValue(finished.value, 'length', settings)} ${unit}`;
    const name = `${numberText(first.value, settings.decimal)} ${first.unit}`;
    return [
      unlikely(
        setBy === undefined ? place : { ...place, column: setBy },
        `The name or size of ${texts[1]} says ${name}, and its finished length is ${shown}.`,
        shown,
        `a length near ${name}`,
        'Look for a digit too many or another unit, in the length or in the name; leave it if the name means something else.',
      ),
    ];
  });
}

/** Whether a length, in the unit of the name, is its figure with one digit more before it: 18 in for 8 in. */
function isDigitMore(named: Measure, mm: number): boolean {
  const figure = convertLength(mm, 'mm', named.unit ?? 'mm');
  const rest = figure - named.value;
  return named.value < 10 && rest > 0 && Math.abs(rest / 10 - Math.round(rest / 10)) < 1e-6;
}

interface Offer {
  readonly material: string;
  readonly kind: string;
  readonly isLength: boolean;
  readonly unitCost: number;
  readonly place: Place;
  readonly column: string;
}

function pricesFarFromOthers(plan: Plan, values: Values): Problem[] {
  const materials = new Map<string, Pick<Offer, 'kind' | 'isLength'>>();
  for (let row = 0; row < rowCount(plan, 'materials'); row += 1)
    materials.set(sameKey(textOf(values, 'materials', 'material', row)), {
      kind: kindOf(values, row),
      isLength: textOf(values, 'materials', 'sold_by', row) === 'length',
    });
  const offers = (['materials', 'packs'] as const).flatMap((sheet) =>
    offersOf(sheet, plan, values, materials),
  );
  const usualOf = new Map(
    [...groups(offers, ({ kind }) => kind)].flatMap(([kind, alike]) =>
      kind === '' || alike.length < 3 ? [] : [[kind, middle(alike)] as const],
    ),
  );
  const ofMaterial = groups(offers, ({ material }) => material);
  return offers.flatMap((offer) => {
    const { material, kind, isLength, unitCost, place, column } = offer;
    const usualOfKind = usualOf.get(kind);
    // Of a material's own packs alone, those of packs.csv are held against the one of materials.csv.
    const usual = usualOfKind ?? (column === 'price' ? ofMaterial.get(material)?.[0]?.unitCost : undefined);
    const off = usual === undefined ? undefined : farFrom(unitCost, usual);
    if (usual === undefined || off === undefined) return [];
    const { settings } = plan;
    const unit = `${settings.currency} ${isLength ? `per ${settings.cordUnit}` : 'each'}`;
    const cost = (value: number): string => `${showValue(value, 'money_per_unit', settings)} ${unit}`;
    const whose = usualOfKind !== undefined ? 'others like it cost' : 'its first pack costs';
    return [
      unlikely(
        { ...place, column },
        `${isLength ? 'Length for length' : 'Piece for piece'}, a pack of ${material} costs ${off} what ${whose}.`,
        cost(unitCost),
        `about ${cost(usual)}`,
        'Look for a slip in its price or in what the pack holds; leave it if it is right.',
      ),
    ];
  });
}

function offersOf(
  sheetId: 'materials' | 'packs',
  plan: Plan,
  values: Values,
  materials: ReadonlyMap<string, Pick<Offer, 'kind' | 'isLength'>>,
): Offer[] {
  const sheet = plan.sheets.find(({ id }) => id === sheetId);
  const column = sheetId === 'materials' ? 'pack_price' : 'price';
  return Array.from({ length: sheet?.rowCount ?? 0 }, (_, row) => row).flatMap((row) => {
    const material = textOf(values, sheetId, 'material', row);
    const known = materials.get(sameKey(material));
    const unitCost = values.number(sheetId, 'landed_pack', row) / values.number(sheetId, 'pack', row);
    const place = sheet?.places[row] ?? { file: `${sheetId}.csv` };
    return known === undefined || !(unitCost > 0) ? [] : [{ material, ...known, unitCost, place, column }];
  });
}

/** What is compared: cords of one published kind, else what has the same name, as in other colours. */
function kindOf(values: Values, row: number): string {
  const of = (column: string): string => textOf(values, 'materials', column, row).trim().toLowerCase();
  if (of('cord_kind') !== '') return `kind ${of('cord_kind')}`;
  return of('name') === '' ? '' : `name ${of('name')}, sold by ${of('sold_by')}`;
}

function groups(offers: readonly Offer[], by: (offer: Offer) => string): Map<string, Offer[]> {
  const found = new Map<string, Offer[]>();
  for (const offer of offers) {
    const group = found.get(by(offer));
    if (group === undefined) found.set(by(offer), [offer]);
    else group.push(offer);
  }
  return found;
}

/** The one in the middle of several, which a single slip does not move. */
function middle(offers: readonly Offer[]): number {
  const sorted = offers.map(({ unitCost }) => unitCost).sort((one, other) => one - other);
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? Number.NaN;
}
