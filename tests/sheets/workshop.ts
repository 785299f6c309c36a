import type { Book } from '../../engine/book/book.ts';
import type { Problem } from '../../engine/book/problems/problem.ts';
import { readBook } from '../../engine/book/readBook.ts';
import { bookSchema } from '../../engine/sheets/bookSchema.ts';
import { compile } from '../../engine/sheets/compile.ts';
import type { SheetDefinition } from '../../engine/sheets/definition.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { readDefinitions } from '../../engine/sheets/readDefinitions.ts';

/** A few sheets, much smaller than the shipped ones, with every way to refer to another cell. */
export const sheets: Readonly<Record<string, string>> = {
  rates: `
sheet: rates
title: Rates
answers: What an hour costs.
rows: { form: book.yaml }
columns:
  - { id: wage, heading: Wage, kind: money, required: true }
  - { id: double, heading: Twice, kind: money, formula: wage * 2 }
`,
  cords: `
sheet: cords
title: Cords
answers: What cord costs.
rows: { table: cords }
key: cord
columns:
  - { id: cord, heading: Cord, kind: key }
  - { id: price, heading: Price, kind: money }
`,
  goods: `
sheet: goods
title: Goods
answers: What is made.
rows: { table: goods }
key: good
columns:
  - { id: good, heading: Good, kind: key }
  - { id: main, heading: Main cord, kind: ref, of: cords }
  - { id: other, heading: Other cord, kind: ref, of: cords }
  - { id: length, heading: "Length, {length}", kind: number }
  - { id: main_price, heading: Price of the main cord, kind: money, formula: "cords[main].price * length" }
  - { id: extras, heading: Extras, kind: money, formula: SUM(extras.cost) }
  - { id: hour, heading: An hour, kind: money, formula: rates.wage }
`,
  extras: `
sheet: extras
title: Extras
answers: What else goes in.
rows: { table: extras }
key: [good, extra]
belongs: { column: good, to: goods }
columns:
  - { id: good, heading: Good, kind: key }
  - { id: extra, heading: Extra, kind: key }
  - { id: cost, heading: Cost, kind: money, total: SUM }
`,
  shops: `
sheet: shops
title: Shops
answers: Where it is sold.
rows: { table: shops }
key: shop
columns:
  - { id: shop, heading: Shop, kind: key }
`,
  cuts: `
sheet: cuts
title: Cuts
answers: What to cut.
rows: { cross: goods, with: [main, other], as: role, keep: cord }
key: [good, role]
belongs: { column: good, to: goods }
columns:
  - { id: good, heading: Good, kind: key }
  - { id: role, heading: Role, kind: key }
  - { id: cord, heading: Cord, kind: ref, of: cords, formula: 'IF(role="main", goods[good].main, goods[good].other)' }
  - { id: price, heading: Price, kind: money, formula: "cords[cord].price" }
`,
  tickets: `
sheet: tickets
title: Tickets
answers: What to write on the ticket.
rows: { cross: goods, with: shops }
key: [good, shop]
columns:
  - { id: good, heading: Good, kind: key }
  - { id: shop, heading: Shop, kind: key }
  - { id: by_hand, heading: By hand, kind: money, role: override, from: set_tickets, column: ticket }
  - { id: ticket, heading: Ticket, kind: money, formula: "IF(ISNUMBER(by_hand), by_hand, goods[good].main_price * 3)" }
`,
  list: `
sheet: list
title: List
answers: All tickets of a good.
rows: { each: goods }
key: good
columns:
  - { id: good, heading: Good, kind: key }
  - { id: ticket, each: shops, heading: "{each}, {currency}", kind: money, formula: "tickets[good, each].ticket" }
  - { id: well, heading: Well, role: check, formula: "goods[good].length > 0", says: "Look at {good}." }
`,
};

export const book: Readonly<Record<string, string>> = {
  'book.yaml': 'currency: USD\nwage: 20\n',
  'cords.csv': 'cord,price\nred,0.5\nblue,0.25\n',
  'goods.csv': 'good,main,other,length\nfob,red,blue,3\nlead,blue,,48\n',
  'extras.csv': 'good,extra,cost\nlead,hook,2\nfob,ring,0.2\nlead,box,1\n',
  'shops.csv': 'shop\nstall\nonline\n',
  'set_tickets.csv': 'good,shop,ticket\nlead,stall,40\n',
};

export interface Made {
  readonly definitions: readonly SheetDefinition[];
  readonly read: Book;
  readonly plan: Plan;
  readonly index: PlanIndex;
  readonly problems: readonly Problem[];
}

/** Compiles the little workshop with other or further sheets and tables. */
export function make(
  moreSheets: Readonly<Record<string, string>> = {},
  moreBook: Readonly<Record<string, string>> = {},
): Made {
  const files = new Map(
    Object.entries({ ...sheets, ...moreSheets }).map(([name, source]) => [`${name}.yaml`, source]),
  );
  const { definitions, problems } = readDefinitions(files);
  const { book: read, problems: bookProblems } = readBook(
    new Map(Object.entries({ ...book, ...moreBook })),
    bookSchema(definitions),
    new Map(),
  );
  if (problems.length > 0) {
    const empty: Plan = { sheets: [], settings: read.settings };
    return {
      definitions,
      read,
      plan: empty,
      index: new PlanIndex(empty),
      problems: [...problems, ...bookProblems],
    };
  }
  const compiled = compile(definitions, read);
  return {
    definitions,
    read,
    plan: compiled.plan,
    index: new PlanIndex(compiled.plan),
    problems: [...problems, ...bookProblems, ...compiled.problems],
  };
}

/** A sheet of the goods with one more column. */
export function withFormula(formula: string): Readonly<Record<string, string>> {
  return {
    own: `
sheet: own
title: Own
answers: A sheet of the book's own.
rows: { each: goods }
key: good
columns:
  - { id: good, heading: Good, kind: key }
  - id: figure
    heading: Figure
    kind: money
    formula: ${JSON.stringify(formula)}
`,
  };
}
