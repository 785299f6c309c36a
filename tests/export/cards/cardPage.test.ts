import { describe, expect, it } from 'vitest';
import { cardPage } from '../../../engine/export/cards/cardPage.ts';
import { demoBook, demoBooks } from '../../support/books.ts';
import { setCells } from '../../support/editBook.ts';
import { batchCard, cardOf, pageOf, reportOf } from './cards.ts';

const about = { date: '2026-11-25', version: '0.0.0' };

describe('the page of bench cards', () => {
  const page = pageOf(demoBook('starter'), { products: ['wrist stout'] });

  it('allows itself nothing but its own styles', () => {
    expect(page).toContain(
      `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">`,
    );
    expect(page).not.toMatch(/<script|<link|<img|\son\w+=|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
  });

  it.each(demoBooks)('has every name inside it once, in the book %s', (name) => {
    const ids = [...pageOf(demoBook(name)).matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('says cut lengths in feet and inches and in centimetres', () => {
    // Of the foot of 304.8 mm and the inch of 25.4 mm, both exact.
    const { card } = cardOf(demoBook('starter'), 'wrist stout');
    for (const { cutMm } of card.cords) {
      const inches = Math.round(cutMm / 25.4);
      const rest = inches % 12 === 0 ? '' : ` ${inches % 12} in`;
      const feet = `${(inches - (inches % 12)) / 12} ft${rest}`;
      expect(page).toContain(`<td class="cut">${feet}</td><td class="cut">${(cutMm / 10).toFixed(1)}</td>`);
    }
  });

  it('writes the numbers of a comma book with commas', () => {
    const metric = pageOf(demoBook('metric'), { products: ['float fob'] });
    expect(metric).toMatch(/<td class="cut">\d ft \d+,\d+ in<\/td><td class="cut">\d+,0<\/td>/);
    expect(metric).toContain('pitch 1,17 cord diameters');
    expect(metric).toContain('<th scope="col">Per cm woven</th>');
  });

  it('says whether lengths are measured or estimated', () => {
    expect(page).toContain('Estimated:</span> lengths come from geometry.');
    expect(pageOf(demoBook('starter'), { products: ['camera wide'] })).toContain('Measured:</span>');
  });

  it('says how many to make where that was asked, and the usual batch where it was not', () => {
    const { report, settings } = reportOf(demoBook('starter'), { products: ['wrist stout'] });
    const asked = { ...report, cards: [batchCard('wrist stout', 24)] };
    expect(cardPage(asked, settings, about)).toContain('<strong>Make 24.</strong>');
    expect(page).toContain('Batch of 12.');
    expect(page).not.toContain('<strong>Make');
    const single = {
      ...report,
      cards: [batchCard('wrist stout', 1)].map((card) => ({ ...card, asked: false })),
    };
    expect(cardPage(single, settings, about)).not.toMatch(/Batch of|For 1 /);
  });

  it('has every caution on every card', () => {
    const cards = pageOf(demoBook('metric')).split('<article').slice(1);
    expect(cards).toHaveLength(9);
    for (const card of cards) {
      for (const caution of [
        'Flame and melt',
        'breakaway',
        'children under three',
        'climbing',
        'lifting',
        'Knots weaken cord',
      ])
        expect(card).toContain(caution);
    }
  });

  it('keeps what a maker wrote as text', () => {
    const book = setCells(
      demoBook('starter'),
      'products.csv',
      { product: 'fob short' },
      { name: `<script>alert("x")</script> & 'co'`, size: '3" <b>', family: '</style><i>' },
    );
    const hostile = pageOf(book, { products: ['fob short'] });
    expect(hostile).not.toMatch(/<script|<\/script|<b>[^A-Za-z]|<i>/);
    expect(hostile).toContain(
      '&#60;script&#62;alert(&#34;x&#34;)&#60;/script&#62; &#38; &#39;co&#39;, 3&#34; &#60;b&#62;',
    );
    expect(hostile.match(/<\/style>/g)).toHaveLength(1);
  });

  it('shortens a name that would fill the page', () => {
    const book = setCells(
      demoBook('starter'),
      'products.csv',
      { product: 'fob short' },
      { name: 'long '.repeat(700) },
    );
    const heading = /<h2[^>]*><bdi>([^<]*)</.exec(pageOf(book, { products: ['fob short'] }))?.[1] ?? '';
    expect(heading).toHaveLength(160);
    expect(heading.endsWith('…')).toBe(true);
  });
});
