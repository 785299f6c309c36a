import { describe, expect, it } from 'vitest';
import { setUpFigure } from '../../../engine/export/cards/setUpFigure.ts';
import { type BookText, demoBook } from '../../support/books.ts';
import { setCells } from '../../support/editBook.ts';
import { bookWithStrap, cardOf, reportOf } from './cards.ts';

const figureOf = (product: string, book: BookText = bookWithStrap(), widthMm = 178): string => {
  const { card, settings } = cardOf(book, product);
  return setUpFigure(card, settings, widthMm, 'f');
};
const texts = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text = '']) => text);

describe('the figure of a set-up', () => {
  it('draws a short piece at full size, with every cord named', () => {
    const shown = texts(figureOf('fob stout'));
    expect(shown).toContain('Whole piece, full size; hardware takes 1 in, at one end');
    expect(shown).toContain('finished 4 in');
    expect(shown).toContain('woven 3 in, 14 half knots in each layer');
    expect(shown).toContain('24 mm wide');
    for (const cord of [
      'core: 2 of coal cord',
      'over: coal cord',
      'under: coal cord',
      'upper over: river cord',
      'upper under: ochre cord',
    ])
      expect(shown).toContain(cord);
  });

  it('draws a long piece at the largest whole scale that fits, and its end at full size', () => {
    // 72 in are 1828.8 mm, on 176 mm of paper.
    const shown = texts(figureOf('lead long'));
    expect(shown).toContain('Whole piece, 1 : 11; hardware takes 3 in, drawn half at each end');
    expect(shown).toContain('Left end, full size: lay the work on it');
    expect(shown).toContain('finished 72 in (6 ft)');
    expect(shown).toContain('over: 2 of rust cord');
  });

  it('is to scale: a dimension is as long as it says', () => {
    const dimensions = [...figureOf('fob short').matchAll(/class="dim" d="M([\d.]+) [\d.]+H([\d.]+)/g)].map(
      ([, from, to]) => Number(to) - Number(from),
    );
    // The scale bar of an inch, the finished length of four and the woven length of three.
    expect(dimensions).toEqual([expect.closeTo(25.4, 1), expect.closeTo(101.6, 1), expect.closeTo(76.2, 1)]);
  });

  it('names a cord where it goes on into the upper layers, once', () => {
    const shown = texts(figureOf('wrist stout'));
    expect(shown.filter((text) => text === 'under: coal cord')).toHaveLength(1);
    expect(shown).toContain('upper over: ochre cord');
  });

  it('writes numbers as the book does', () => {
    expect(texts(figureOf('blind pull', demoBook('metric')))).toContain('woven 15 cm, 60 turns');
    expect(texts(figureOf('lead 120', demoBook('metric')))).toContain('finished 120 cm');
  });

  it('keeps within the paper that it has', () => {
    for (const book of ['starter', 'metric']) {
      const { report, settings } = reportOf(demoBook(book));
      for (const card of report.cards) {
        for (const widthMm of [90, 178]) {
          const svg = setUpFigure(card, settings, widthMm, 'f');
          for (const [, from, to] of svg.matchAll(/class="dim" d="M([\d.-]+) [\d.]+H([\d.]+)/g)) {
            expect(Number(from)).toBeGreaterThanOrEqual(0);
            expect(Number(to)).toBeLessThanOrEqual(widthMm);
          }
          expect(svg).not.toMatch(/NaN|Infinity|undefined/);
        }
      }
    }
  });

  it('tells those who hear it what it shows', () => {
    const svg = figureOf('strap');
    expect(svg).toMatch(/role="img" aria-labelledby="f-title f-desc"/);
    expect(svg).toContain('<title id="f-title">Set-up of Plain strap, 8 in</title>');
    expect(svg).toMatch(/<desc id="f-desc">Drawn at 1 : 2, .*over: 1 of moss cord \(moss\)\./);
  });

  it('hatches a cord whose colour is no word that is known, and names it all the same', () => {
    const book = setCells(bookWithStrap(), 'materials.csv', { material: 'moss cord' }, { colour: 'no. 14' });
    const svg = figureOf('strap', book);
    expect(svg).toContain('class="hatch"');
    expect(texts(svg)).toContain('over: moss cord');
    expect(figureOf('strap')).not.toContain('class="hatch"');
  });

  it('names a stripe and a band, and draws a weave that has no strokes as a plain band', () => {
    const striped = bookWithStrap({ stripe_cord: 'cream cord', band_cord: 'rust fine', bands: '2' });
    const shown = texts(figureOf('strap', striped));
    expect(shown).toContain('stripe: cream cord');
    expect(shown).toContain('band: 2 of rust fine');
    const chain = setCells(
      demoBook('starter'),
      'products.csv',
      { product: 'fob short' },
      { weave: 'chain', core_strands: '0' },
    );
    const svg = figureOf('fob short', chain);
    expect(svg).toContain('class="band"');
    expect(svg).not.toContain('class="cord"');
    expect(texts(svg)).toContain('over: slate cord');
  });

  it('says so where the sheets do not know the width', () => {
    const { card, settings } = cardOf(demoBook('starter'), 'fob short');
    const svg = setUpFigure({ ...card, widthMm: null, thicknessMm: null, knots: null }, settings, 178, 'f');
    expect(texts(svg)).toEqual(expect.arrayContaining(['width not', 'to scale', 'woven 3 in']));
  });

  it('draws what is odd as well: a piece of a millimetre, one of a kilometre, and one without hardware', () => {
    const { card, settings } = cardOf(demoBook('starter'), 'fob short');
    for (const odd of [
      { ...card, wovenMm: 1, finishedMm: 1, hardwareMm: 0, knots: 0.2 },
      { ...card, wovenMm: 1e6, finishedMm: 1e6, knots: 213_675 },
      { ...card, finishedMm: null, hardwareMm: 0, hitches: 0, coreStrands: 0 },
      { ...card, coreStrands: 40, widthMm: 168 },
    ]) {
      const svg = setUpFigure(odd, settings, 178, 'f');
      expect(svg).not.toMatch(/NaN|Infinity|undefined|(width|height|r)="-/);
      expect(svg.length).toBeLessThan(200_000);
    }
  });
});
