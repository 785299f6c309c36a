import { describe, expect, it } from 'vitest';
import { make } from './workshop.ts';

const circles = (columns: string) =>
  make({ more: `extends: goods\ncolumns:\n${columns}` }).problems.filter(({ code }) => code === 'circle');

describe('findCircles', () => {
  it('finds none in the little workshop', () => {
    expect(make().problems).toEqual([]);
  });

  it('tells the chain by headings', () => {
    const found = circles(
      '  - { id: a, heading: One, formula: b + 1 }\n  - { id: b, heading: Two, formula: c + 1 }\n  - { id: c, heading: Three, formula: a + 1 }\n',
    );
    expect(found.map(({ message }) => message)).toEqual([
      'These columns need each other: Goods: One → Goods: Two → Goods: Three → Goods: One.',
    ]);
    expect(found[0]?.where).toEqual({ file: 'more.yaml', line: 3, column: 'One' });
  });

  it('finds a column that needs itself, and a circle through another sheet', () => {
    expect(circles('  - { id: a, heading: One, formula: a + 1 }\n')).toHaveLength(1);
    expect(
      circles(
        '  - { id: a, heading: One, formula: "SUM(tickets.ticket) + main_price" }\n  - { id: b, heading: Two, formula: a }\n',
      ),
    ).toEqual([]);
    const through = make({
      goods_more: 'extends: goods\ncolumns:\n  - { id: a, heading: One, formula: "SUM(extras.b)" }\n',
      extras_more: 'extends: extras\ncolumns:\n  - { id: b, heading: Two, formula: "goods[good].a" }\n',
    });
    expect(through.problems.map(({ code }) => code)).toEqual(['circle']);
  });

  it('counts a circle in a branch that is never taken, as the calculation engine does', () => {
    expect(circles('  - { id: a, heading: One, formula: "IF(1=1, 2, a)" }\n')).toHaveLength(1);
  });

  it('reports one problem a circle', () => {
    expect(
      circles(
        '  - { id: a, heading: One, formula: b }\n  - { id: b, heading: Two, formula: a }\n  - { id: c, heading: Three, formula: a + b }\n',
      ),
    ).toHaveLength(1);
  });
});
