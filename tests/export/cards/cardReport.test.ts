import { describe, expect, it } from 'vitest';
import { cardReport } from '../../../engine/export/cards/cardReport.ts';
import { demoBook, demoBooks, pricedBook } from '../../support/books.ts';
import { batchCard, bookWithStrap, cardOf, reportOf } from './cards.ts';

/** Exact by the International Yard and Pound Agreement of 1959. */
const mmPerInch = 25.4;

describe('the report of bench cards', () => {
  it.each(demoBooks)('has a card for every product of the book %s, in its order', (name) => {
    const { plan } = pricedBook(demoBook(name));
    const keys = plan.sheets.find(({ id }) => id === 'products')?.columns[0]?.inputs;
    expect(reportOf(demoBook(name)).report.cards.map(({ product }) => product)).toEqual(keys);
  });

  it('takes its figures from the cells of the sheets', () => {
    const { plan, values } = pricedBook(bookWithStrap());
    const [card] = cardReport(plan, values, { products: ['STRAP'] }, []).cards;
    const products = plan.sheets.find(({ id }) => id === 'products');
    const row = products?.columns[0]?.inputs?.indexOf('strap') ?? -1;
    expect(card?.minutesPerPiece).toBe(values.number('costs', 'minutes', row));
    expect(card?.batchMinutes).toBe(values.number('costs', 'batch_minutes', row));
    expect(card?.widthMm).toBe(values.number('geometry', 'width_mm', row));
    expect(card?.knots).toBe(values.number('geometry', 'knots', row));
    const cuts = plan.sheets.find(({ id }) => id === 'cuts');
    const first = cuts?.columns[0]?.inputs?.indexOf('strap') ?? -1;
    expect(card?.cords.map(({ role }) => role)).toEqual(['core', 'over', 'under']);
    card?.cords.forEach((cord, at) => {
      expect(cord.cutMm).toBeCloseTo(values.number('cuts', 'cut_length', first + at) * mmPerInch, 9);
    });
    expect(card?.steps.map(({ step }) => step)).toEqual([
      'measure and cut',
      'set up on the jig',
      'tie',
      'trim and melt',
    ]);
  });

  it('says the width and the half knots that a bar of four core strands has', () => {
    // Six cords of 4 mm side by side; 6 3/4 in of half knots that are 1.17 cords long: 171.45 / 4.68 = 36.63.
    const { card } = cardOf(bookWithStrap({ core_strands: '4' }), 'strap');
    expect(card.widthMm).toBeCloseTo(24, 9);
    expect(card.knots).toBeCloseTo(171.45 / 4.68, 9);
    // The even number nearest to it: the knots of a bar are tied in pairs.
    expect(card.halfKnotsToTie).toBe(36);
    expect(card.counted).toBe('half knots');
  });

  it('says what a piece closes round, and how far it adjusts', () => {
    const { card } = cardOf(
      bookWithStrap({
        finished_length: '',
        measure: '7 in',
        thickness_set: '12 mm',
        webbing_length: '2 in',
        adjusts_by: '1 in',
      }),
      'strap',
    );
    expect(card.fitsFromMm).toBeCloseTo(6.5 * mmPerInch, 9);
    expect(card.fitsToMm).toBeCloseTo(7.5 * mmPerInch, 9);
    expect(card.webbingMm).toBeCloseTo(2 * mmPerInch, 9);
    // Bent to a ring, a band 12 mm thick is shorter inside by pi times its thickness.
    expect(card.finishedMm).toBeCloseTo(7 * mmPerInch + Math.PI * 12, 6);
  });

  it('leaves out cords that are not cut, and figures that a weave does not have', () => {
    const { card } = cardOf(demoBook('starter'), 'lead long');
    expect(card.cords.map(({ role }) => role)).toEqual(['over', 'under']);
    expect(card).toMatchObject({
      knots: null,
      halfKnotsToTie: null,
      slotWidthMm: null,
      fitsFromMm: null,
      angleDegrees: expect.any(Number),
    });
  });

  it('measures webbing by length and counts hooks', () => {
    const { card } = cardOf(demoBook('starter'), 'sling bar');
    const webbing = card.parts.find(({ material }) => material === 'webbing');
    expect(webbing?.measuredBy).toBe('length');
    expect(webbing?.quantity).toBeCloseTo(20 * mmPerInch, 9);
    expect(webbing?.batchQuantity).toBeCloseTo(4 * 20 * mmPerInch, 9);
    expect(card.parts[0]).toMatchObject({
      material: 'O ring',
      measuredBy: 'piece',
      quantity: 2,
      batchQuantity: 8,
    });
  });

  it('says what ends a piece, and what it weighs', () => {
    const { card } = cardOf(demoBook('starter'), 'lanyard hand');
    expect(card.ends).toEqual([
      {
        where: 'wrist',
        end: 'overhand loop',
        name: 'Loop tied with an overhand knot',
        count: 1,
        sizeMm: expect.closeTo(5.5 * mmPerInch, 9),
        role: 'core',
      },
    ]);
    const { plan, values } = pricedBook(demoBook('starter'));
    const row =
      plan.sheets.find(({ id }) => id === 'products')?.columns[0]?.inputs?.indexOf('lanyard hand') ?? -1;
    // The starter book weighs in ounces of 28.349523125 g (NIST SP 811, App. B.8).
    expect(card.weightG).toBeCloseTo(values.number('costs', 'weight', row) * 28.349523125, 9);
    expect(card.weightFrom).toBe(values.get('costs', 'weight_from', row));
  });

  it('says which figures are measured', () => {
    expect(cardOf(demoBook('starter'), 'camera wide').card.numbers).toBe('measured');
    expect(cardOf(demoBook('starter'), 'fob short').card.numbers).toBe('estimated');
  });

  it('does without a sheet or a column that the book replaces', () => {
    const { plan, values } = pricedBook(demoBook('starter'));
    const without = {
      ...plan,
      sheets: plan.sheets
        .filter(({ id }) => id !== 'geometry')
        .map((sheet) => ({ ...sheet, columns: sheet.columns.filter(({ id }) => id !== 'batch_minutes') })),
    };
    const [card] = cardReport(without, values, { products: ['fob short'] }, []).cards;
    expect(card).toMatchObject({ widthMm: null, knots: null, pitchRatio: null, batchMinutes: 0 });
  });
});

describe('a batch that is asked for', () => {
  it('takes so many cords, so much cord and so many parts', () => {
    const usual = cardOf(bookWithStrap(), 'strap').card;
    const card = batchCard('Strap', 30);
    expect(card).toMatchObject({ batchSize: 30, asked: true });
    card.cords.forEach((cord, at) => {
      expect(cord.batchCords).toBe(30);
      expect(cord.cutMm).toBe(usual.cords[at]?.cutMm);
      expect(cord.batchCordMm).toBeCloseTo(30 * cord.cutMm, 6);
    });
  });

  it('shares out the minutes of a batch over its own pieces', () => {
    // 14 minutes a batch; the rest of the work is by piece and by length, whatever the batch.
    const [one, ten] = [batchCard('strap', 1), batchCard('strap', 10)];
    expect(one.minutesPerPiece - ten.minutesPerPiece).toBeCloseTo(14 - 1.4, 9);
    expect(ten.batchMinutes).toBeCloseTo(10 * ten.minutesPerPiece, 9);
  });
});
