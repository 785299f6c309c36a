import { sameKey } from '../../book/book.ts';
import { convertLength } from '../../book/measures/measure.ts';
import { convertWeight } from '../../book/measures/weight.ts';
import type { Problem } from '../../book/problems/problem.ts';
import type { Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';
import { benchCautions } from '../pages/startText.ts';
import type { Card, CardCord, CardEnd, CardPart, CardReport, CardStep } from './card.ts';
import { type ProductCells, productCells } from './productCells.ts';

/** Which cards are wanted. */
export interface CardChoice {
  /** Keys of products, in any capitals; undefined for every product. */
  readonly products?: readonly string[];
  /** Keys of products whose batch was asked for. */
  readonly asked?: readonly string[];
}

/**
 * Picks what bench cards show out of a calculated plan, in the order of the book. Computes nothing but other
 * units of length: all of it stands in the sheets, from Products and Geometry to Cuts, Parts, Work and Costs.
 */
export function cardReport(
  plan: Plan,
  values: Values,
  choice: CardChoice,
  problems: readonly Problem[],
): CardReport {
  const cells = productCells(plan, values);
  const wanted = choice.products === undefined ? undefined : new Set(choice.products.map(sameKey));
  const asked = new Set((choice.asked ?? []).map(sameKey));
  const keys = plan.sheets.find(({ id }) => id === 'products')?.columns.find(({ id }) => id === 'product');
  const products = (keys?.inputs ?? []).map(String).filter((key) => wanted?.has(sameKey(key)) ?? true);
  return {
    workshop: plan.settings.workshop,
    lengthUnit: plan.settings.lengthUnit,
    cards: products.map((product) => card(product, cells, plan, asked.has(sameKey(product)))),
    cautions: benchCautions.map(([about, says]) => ({ about, says })),
    problems,
  };
}

function card(product: string, cells: ProductCells, plan: Plan, asked: boolean): Card {
  const text = (column: string): string => cells.text(column, product);
  const number = (column: string): number | null => cells.number(column, product);
  /** Where a formula points to a blank cell it reads 0, and no pitch, angle or width is that. */
  const measure = (column: string): number | null => number(column) || null;
  const mm = (length: number | null): number | null =>
    length === null ? null : convertLength(length, plan.settings.lengthUnit, 'mm');
  const weight = measure('costs.weight');
  const weave = text('products.weave');
  const family = cells.text('weaves.family', weave);
  const diameter = (material: string): number => cells.number('materials.diameter', material) ?? 0;
  return {
    product,
    name: text('products.name') || product,
    family: text('products.family'),
    size: text('products.size'),
    weave,
    weaveName: cells.text('weaves.name', weave) || weave,
    weaveFamily: family,
    layers: number('products.layers') ?? 1,
    mostLayers: cells.number('families.most_layers', family) ?? 1,
    numbers: text('products.numbers') === 'measured' ? 'measured' : 'estimated',
    pitchRatio: measure('geometry.pitch_ratio'),
    angleDegrees: cells.number('weaves.angle', weave) || null,
    overStrands: cells.number('weaves.over_strands', weave) ?? 0,
    underStrands: cells.number('weaves.under_strands', weave) ?? 0,
    passesOver: cells.number('weaves.passes_over', weave) ?? 1,
    coreStrands: number('products.core') ?? 0,
    diameterMm: diameter(text('products.over_cord')),
    coreDiameterMm: diameter(text('products.core_of')),
    finishedMm: mm(measure('products.finished')),
    hardwareMm: mm(number('products.hardware_length')) ?? 0,
    webbingMm: mm(number('products.webbing_length')) ?? 0,
    wovenMm: mm(number('products.woven_length')) ?? 0,
    widthMm: measure('geometry.width_mm'),
    // Measured on the piece, or by geometry.
    thicknessMm: measure('products.thickness'),
    knots: measure('geometry.knots'),
    halfKnotsToTie: measure('geometry.half_knots'),
    counted: cells.text('families.counted', family),
    fitsFromMm: mm(measure('products.fits_from')),
    fitsToMm: mm(measure('products.fits_to')),
    hitches: number('products.hitches') ?? 0,
    hardwareBarMm: measure('products.bar_diameter'),
    slotWidthMm: measure('products.slot_width'),
    strandsAcross: measure('products.strands_across'),
    bandKnots: measure('products.band_knots'),
    cords: cordsOf(product, cells, plan),
    ends: endsOf(product, cells, plan),
    parts: partsOf(product, cells, plan),
    steps: [...stepsOf(weave, cells), ...stepsOf(product, cells)],
    weightG: weight === null ? null : convertWeight(weight, plan.settings.weightUnit, 'g'),
    weightFrom: text('costs.weight_from'),
    minutesPerPiece: number('costs.minutes') ?? 0,
    batchSize: number('products.batch_size') ?? 1,
    batchMinutes: number('costs.batch_minutes') ?? 0,
    asked,
  };
}

function cordsOf(product: string, cells: ProductCells, plan: Plan): CardCord[] {
  const { lengthUnit, cordUnit } = plan.settings;
  return (
    cells
      .children('cuts', product)
      .map((row) => {
        const mm = (column: string): number => convertLength(row.number(column), lengthUnit, 'mm');
        const cord = row.text('cord');
        return {
          role: row.text('role'),
          cord,
          name: cells.text('materials.name', cord),
          colour: cells.text('materials.colour', cord),
          diameterMm: cells.number('materials.diameter', cord),
          cords: row.number('pieces'),
          strandsInEach: row.number('strands'),
          cutMm: mm('cut_length'),
          wovenMm: mm('woven'),
          hitchedMm: mm('hitched'),
          joinedMm: mm('joined'),
          inEndsMm: mm('in_ends'),
          extraMm: mm('extra'),
          spareMm: mm('spare'),
          trimMm: mm('trim'),
          batchCords: row.number('batch_cords'),
          batchCordMm: convertLength(row.number('batch_cord'), cordUnit, 'mm'),
        };
      })
      // A braid has no core and a wrap no under cord: nothing to cut, nothing to say.
      .filter(({ cords, cutMm }) => cords > 0 && cutMm > 0)
  );
}

function partsOf(product: string, cells: ProductCells, plan: Plan): CardPart[] {
  return cells.children('parts', product).map((row) => {
    const material = row.text('material');
    const measuredBy = cells.text('materials.sold_by', material) === 'length' ? 'length' : 'piece';
    const amount = (column: string): number =>
      measuredBy === 'length'
        ? convertLength(row.number(column), plan.settings.cordUnit, 'mm')
        : row.number(column);
    return {
      material,
      name: cells.text('materials.name', material),
      measuredBy,
      quantity: amount('quantity'),
      batchQuantity: amount('batch_quantity'),
    };
  });
}

function endsOf(product: string, cells: ProductCells, plan: Plan): CardEnd[] {
  return cells
    .children('ends', product)
    .map((row) => {
      const end = row.text('end');
      const size = row.number('size');
      return {
        where: row.text('where'),
        end,
        name: cells.text('end_kinds.name', end) || end,
        count: row.number('count'),
        sizeMm: size > 0 ? convertLength(size, plan.settings.lengthUnit, 'mm') : null,
        role: row.text('cord_role'),
      };
    })
    .filter(({ count }) => count > 0);
}

function stepsOf(owner: string, cells: ProductCells): CardStep[] {
  return cells.children('work', owner).map((row) => ({
    step: row.text('step'),
    minutesPerBatch: row.number('minutes_per_batch'),
    minutesPerPiece: row.number('minutes_per_piece'),
    minutesPerLength: row.number('minutes_per_length'),
  }));
}
