import { expect, it } from 'vitest';
import { priceFiles } from '../support/books.ts';
import { tradeBook } from '../support/tradeBook.ts';

/** A product with a core stripe, of a weave of a family of one's own. */
const problemsOf = (family: string): string[] =>
  priceFiles(
    tradeBook({
      more: {
        'families.csv': `family,usual_core,least_core,most_layers,needs,knotted_bar,take_up,width,thickness\n${family},pitch_ratio + core,core + 2,2\n`,
        'weaves.csv': 'weave,family,over_strands,under_strands,pitch_ratio\nmine,own,1,1,1.2\n',
        'products.csv': 'product,weave,over_cord,stripe_cord,finished_length\nthing,mine,cord,cord,10\n',
      },
    }),
  )
    .problems.filter(({ severity }) => severity === 'error')
    .map(({ message }) => message);

it('a stripe lies on a weave whose family says that it is tied as a knotted bar is, however many layers it has', () => {
  expect(problemsOf('own,2,0,1,pitch,yes')).toEqual([]);
  expect(problemsOf('own,2,0,3,pitch,yes')).toEqual([]);
});

it('and on no other, layers or not', () => {
  for (const family of ['own,2,0,3,pitch,no', 'own,2,0,3,pitch,', 'own,2,0,1,pitch,no'])
    expect(problemsOf(family).join(), family).toContain('weave mine is no knotted bar for it to lie on');
});
