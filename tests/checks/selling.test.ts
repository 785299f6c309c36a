import { describe, expect, it } from 'vitest';
import { priceFiles } from '../support/books.ts';

// What a sale brings, worked out here as a whole order is settled: what the buyer pays and owes in tax, what the channel and
// the post take of it, and what is left for each piece. The book's own columns say it piece by piece and by closed forms.
// Invented figures, unlike one another.

interface Channel {
  readonly pieces: number;
  readonly includesTax: boolean;
  /** Shares: 0.2 is 20 %. */
  readonly tax: number;
  readonly discount: number;
  readonly postagePaid: number;
  readonly postageCharged: number;
  readonly step: number;
  readonly ending: number;
  readonly fees: readonly Fee[];
}

interface Fee {
  readonly share: number;
  readonly of: 'net price' | 'gross price' | 'net price and postage' | 'gross price and postage' | '';
  readonly perOrder: number;
  readonly perPiece: number;
}

const fee = (share: number, of: Fee['of'], perOrder = 0, perPiece = 0): Fee => ({
  share,
  of,
  perOrder,
  perPiece,
});

const channels: Readonly<Record<string, Channel>> = {
  stall: {
    pieces: 1,
    includesTax: true,
    tax: 0.2,
    discount: 0,
    postagePaid: 0,
    postageCharged: 0,
    step: 0.5,
    ending: 0,
    fees: [
      fee(0.021, 'gross price', 0.08),
      fee(0.04, 'net price'),
      fee(0.011, 'net price', 0.03),
      fee(0.006, 'gross price', 0, 0.02),
    ],
  },
  online: {
    pieces: 1.6,
    includesTax: false,
    tax: 0.1,
    discount: 0,
    postagePaid: 5.2,
    postageCharged: 4.6,
    step: 1,
    ending: 0.95,
    fees: [
      fee(0.055, 'gross price and postage'),
      fee(0.029, 'net price and postage', 0.3),
      fee(0.012, 'net price and postage'),
      fee(0.008, 'gross price and postage', 0.11),
      fee(0, '', 0, 0.15),
      fee(0, '', 0, 0.04),
    ],
  },
  shops: {
    pieces: 24,
    includesTax: true,
    tax: 0.2,
    discount: 0.45,
    postagePaid: 19,
    postageCharged: 7,
    step: 0.25,
    ending: 0.2,
    fees: [fee(0.033, 'gross price', 1.2)],
  },
};

/** Unit cost by product: one part at that price, and bench time at 30.00 and 6.00 of overhead an hour. */
const parts: Readonly<Record<string, number>> = {
  fob: 4.31,
  strap: 11.07,
  lead: 0.4,
  'collar small': 7,
  'collar large': 9,
};
const minutes: Readonly<Record<string, number>> = {
  fob: 10,
  strap: 25,
  lead: 0,
  'collar small': 5,
  'collar large': 5,
};
const unitCost = (product: string): number => (parts[product] ?? 0) + ((minutes[product] ?? 0) / 60) * 36;
const variableCost = (product: string): number => (parts[product] ?? 0) + ((minutes[product] ?? 0) / 60) * 30;

const rows = (heading: string, lines: readonly string[]): string => `${[heading, ...lines].join('\n')}\n`;

function book(more: Readonly<Record<string, string>> = {}): ReadonlyMap<string, string> {
  return new Map(
    Object.entries({
      'book.yaml':
        'currency: USD\nwage_per_hour: 30\nbench_hours_per_month: 50\nwanted_margin_percent: 31\ntax_percent: 20\n',
      'overheads.csv': 'overhead,per_month\nall,300\n',
      'materials.csv': rows('material,sold_by,diameter,pack,pack_price,weight', [
        'cord,length,4,100,0,0 g/m',
        ...Object.entries(parts).map(
          ([product, price]) => `part of ${product},piece,,1,${price},${product === 'lead' ? '' : '10 g'}`,
        ),
      ]),
      'sizes.csv': 'run,size,measure\nneck,small,10 in\nneck,large,14 in\n',
      'products.csv': rows(
        'product,name,family,size_run,weave,over_cord,woven_length_set,wanted_margin_percent,minimum_price',
        [
          'fob,Plain fob,small things,,bar,cord,1,,',
          'strap,,,,bar,cord,1,22,',
          'lead,,,,bar,cord,1,,6.13',
          'collar,,,neck,bar,cord,1,,',
        ],
      ),
      'parts.csv': rows(
        'product,material,quantity',
        Object.keys(parts).map((each) => `${each},part of ${each},1`),
      ),
      'work.csv': rows(
        'for,step,minutes_per_piece',
        Object.entries(minutes).map(([product, each]) => `${product},make,${each}`),
      ),
      'channels.csv': rows(
        'channel,pieces_per_order,prices_include_tax,tax_percent,wholesale_discount_percent,postage_paid,postage_charged,price_step,price_ending,wanted_margin_percent,packing_weight',
        Object.entries(channels).map(([channel, each]) =>
          [
            channel,
            each.pieces,
            each.includesTax ? 'yes' : 'no',
            each.tax === 0.2 ? '' : each.tax * 100,
            each.discount * 100,
            each.postagePaid,
            each.postageCharged,
            each.step,
            each.ending,
            channel === 'shops' ? 12 : '',
            channel === 'online' ? '40 g' : '',
          ].join(','),
        ),
      ),
      'fees.csv': rows(
        'channel,fee,percent,taken_on,fixed_per_order,fixed_per_piece',
        Object.entries(channels).flatMap(([channel, { fees }]) =>
          fees.map(
            (each, at) =>
              `${channel},fee ${at},${each.share === 0 ? '' : each.share * 100},${each.of},${each.perOrder || ''},${each.perPiece || ''}`,
          ),
        ),
      ),
      'set_prices.csv': 'product,channel,asking,wanted_margin_percent\nfob,online,17.95,\nstrap,online,,40\n',
      'price_breaks.csv': rows('channel,from_pieces,discount_percent,for', [
        'stall,3,10,small things',
        'online,5,7,everything',
        'shops,48,9,strap',
        'shops,60,4,collar',
      ]),
      ...more,
    }),
  );
}

function figures(more?: Readonly<Record<string, string>>) {
  const { plan, values, problems } = priceFiles(book(more));
  if (plan === undefined || values === undefined)
    throw new Error(problems.map(({ message }) => message).join('\n'));
  const rowOf = (sheet: string, keys: Readonly<Record<string, string | number>>): number =>
    Array.from({ length: plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0 }, (_, row) => row).find(
      (row) => Object.entries(keys).every(([id, key]) => values.get(sheet, id, row) === key),
    ) ?? -1;
  return {
    plan,
    problems,
    price: (product: string, channel: string, id: string) =>
      values.get('prices', id, rowOf('prices', { product, channel })),
    quantity: (product: string, channel: string, id: string) =>
      values.get('break_prices', id, rowOf('break_prices', { product, channel })),
    breaks: Array.from(
      { length: plan.sheets.find(({ id }) => id === 'break_prices')?.rowCount ?? 0 },
      (_, row) =>
        `${values.get('break_prices', 'channel', row)} ${values.get('break_prices', 'product', row)}`,
    ),
    get: (sheet: string, keys: Readonly<Record<string, string | number>>, id: string) =>
      values.get(sheet, id, rowOf(sheet, keys)),
  };
}

const coins = (amount: number): number => Math.round(Number((amount * 100).toFixed(6))) / 100;

/** An order of the channel's usual size, every piece billed alike, settled to the last fee; for each piece. */
function settle(channel: Channel, billed: number, round: boolean) {
  const fixed = (amount: number): number => (round ? coins(amount) : amount);
  const inside = channel.includesTax ? fixed((billed * channel.tax) / (1 + channel.tax)) : 0;
  const net = billed - inside;
  const gross = channel.includesTax ? billed : net * (1 + channel.tax);
  const goods = { net: net * channel.pieces, gross: gross * channel.pieces };
  const post = { net: channel.postageCharged, gross: channel.postageCharged * (1 + channel.tax) };
  const taken = channel.fees.reduce((sum, each) => {
    const base =
      (each.of.startsWith('net') ? goods.net : each.of.startsWith('gross') ? goods.gross : 0) +
      (each.of === 'net price and postage'
        ? post.net
        : each.of === 'gross price and postage'
          ? post.gross
          : 0);
    return sum + each.share * base + each.perOrder + each.perPiece * channel.pieces;
  }, 0);
  const postage = channel.postagePaid - channel.postageCharged;
  return {
    inside,
    net,
    gross,
    fees: taken / channel.pieces,
    postage: postage / channel.pieces,
    /** Of one piece, before what it costs to make. */
    left: (goods.net - taken - postage) / channel.pieces,
  };
}

/** What the maker wants here: the pair's own margin, the product's, the channel's, or the general one. */
function wanted(product: string, channel: string): number {
  if (product === 'strap' && channel === 'online') return 0.4;
  if (product === 'strap') return 0.22;
  return channel === 'shops' ? 0.12 : 0.31;
}

const pairs = Object.keys(parts).flatMap((product) =>
  Object.keys(channels).map((channel) => [product, channel] as const),
);
const near = (value: unknown, expected: number, digits = 9): void => {
  expect(typeof value).toBe('number');
  expect(value as number).toBeCloseTo(expected, digits);
};

const all = figures();

describe.each(pairs)('%s at %s', (product, name) => {
  const channel = channels[name] as Channel;
  const get = (id: string) => all.price(product, name, id);
  const number = (id: string): number => Number(get(id));

  it('its floor loses nothing and earns nothing', () => {
    near(settle(channel, number('floor') * (1 - channel.discount), false).left, unitCost(product));
  });

  it('its target earns the wanted margin', () => {
    const { left, net } = settle(channel, number('target') * (1 - channel.discount), false);
    near((left - unitCost(product)) / net, wanted(product, name));
    near(get('wanted_margin'), wanted(product, name));
  });

  it('asks the first price with the channel’s ending that reaches the target and the least price', () => {
    const least = Math.max(number('target'), product === 'lead' ? 6.13 : 0);
    let ticket = channel.ending;
    while (ticket < least - 1e-9) ticket += channel.step;
    near(get('with_ending'), ticket);
    near(get('asking'), product === 'fob' && name === 'online' ? 17.95 : ticket);
  });

  it('is settled as the whole order is', () => {
    const billed = coins(number('asking') * (1 - channel.discount));
    const order = settle(channel, billed, true);
    near(get('billed'), billed);
    near(get('tax_inside'), order.inside);
    near(get('net'), order.net);
    near(get('gross'), order.gross);
    // Fees on postage are the same whatever the price, and stand with the fees.
    near(get('fees'), order.fees);
    near(get('postage'), order.postage);
    near(get('contribution'), order.left - variableCost(product));
    near(get('profit'), order.left - unitCost(product));
    near(get('margin'), (order.left - unitCost(product)) / order.net);
    near(get('markup'), (order.left - unitCost(product)) / (order.net - order.left + unitCost(product)));
  });

  it('asks no less than its floor where nobody set a price', () => {
    if (product === 'fob' && name === 'online') return;
    expect(get('floor_check')).toBe('well');
    expect(number('asking')).toBeGreaterThan(number('floor'));
  });

  it('brings so much for each hour at the bench, or nothing is said', () => {
    const hours = (minutes[product] ?? 0) / 60;
    if (hours === 0) expect(get('contribution_per_hour')).toBe('');
    else near(get('contribution_per_hour'), number('contribution') / hours);
  });

  it('weighs as many pieces as an order has, and the packing', () => {
    const ounce = 28.349523125;
    if (product === 'lead') expect(get('order_weight')).toBe('');
    else near(number('order_weight') * ounce, 10 * channel.pieces + (name === 'online' ? 40 : 0), 6);
  });
});

describe('a price list', () => {
  it('asks what the prices ask, channel by channel', () => {
    const columns = (all.plan.sheets.find(({ id }) => id === 'price_list')?.columns ?? []).filter(
      ({ kind }) => kind === 'money',
    );
    expect(columns).toHaveLength(3);
    for (const [at, { id }] of columns.entries()) {
      for (const product of Object.keys(parts)) {
        const channel = Object.keys(channels)[at] ?? '';
        near(all.get('price_list', { product }, id), Number(all.price(product, channel, 'asking')));
      }
    }
    expect(all.get('price_list', { product: 'collar small' }, 'size')).toBe('small');
    expect(all.get('price_list', { product: 'fob' }, 'name')).toBe('Plain fob');
  });
});

describe('prices by quantity', () => {
  it('hold for the family, for everything, for the product, for every size of it, and for nobody else', () => {
    expect([...all.breaks].sort()).toEqual(
      [
        'stall fob',
        ...Object.keys(parts).map((product) => `online ${product}`),
        'shops strap',
        'shops collar small',
        'shops collar large',
      ].sort(),
    );
    expect(all.get('price_breaks', { channel: 'stall' }, 'products')).toBe(1);
    expect(all.get('price_breaks', { channel: 'online' }, 'products')).toBe(5);
  });

  it.each([
    ['fob', 'stall', 3, 0.1],
    ['strap', 'online', 5, 0.07],
    ['lead', 'online', 5, 0.07],
    ['strap', 'shops', 48, 0.09],
    ['collar large', 'shops', 60, 0.04],
  ] as const)(
    '%s at %s: off what the buyer of one pays, and settled as an order',
    (product, name, from, off) => {
      const channel = channels[name] as Channel;
      const get = (id: string) => all.quantity(product, name, id);
      const single = Number(all.price(product, name, 'billed'));
      const price = coins(single * (1 - off));
      const order = settle(channel, price, true);
      near(get('from_pieces'), from);
      near(get('discount'), off);
      near(get('single'), single);
      near(get('price'), price);
      near(get('tax_inside'), order.inside);
      near(get('net'), order.net);
      near(get('fees'), order.fees);
      near(get('postage'), order.postage);
      near(get('unit_cost'), unitCost(product));
      near(get('profit'), order.left - unitCost(product));
      near(get('margin'), (order.left - unitCost(product)) / order.net);
      near(settle(channel, Number(get('floor')), false).left, unitCost(product));
    },
  );

  it.each([
    ['fob', 'stall', 'small things'],
    ['lead', 'online', 'everything'],
    ['strap', 'shops', 'strap'],
    ['collar small', 'shops', 'collar'],
  ] as const)('say of %s at %s what they hold for', (product, name, word) => {
    expect(all.quantity(product, name, 'holds_for')).toBe(word);
  });

  it('have their tax rounded to the nearest coin, at any discount', () => {
    const channel = channels.stall as Channel;
    // Of 21.00 these leave taxes of which some are rounded up and some down.
    const discounts = [1, 2.5, 3.5, 5, 7.5, 8, 11.1, 15, 20];
    const { values, plan } = priceFiles(
      book({
        'price_breaks.csv': `channel,from_pieces,discount_percent,for\n${discounts.map((off, at) => `stall,${at + 2},${off},fob\n`).join('')}`,
      }),
    );
    const rowCount = plan?.sheets.find(({ id }) => id === 'break_prices')?.rowCount;
    expect(rowCount).toBe(discounts.length);
    for (const [row, off] of discounts.entries()) {
      const price = coins(Number(all.price('fob', 'stall', 'billed')) * (1 - off / 100));
      near(values?.get('break_prices', 'price', row), price);
      near(values?.get('break_prices', 'tax_inside', row), settle(channel, price, true).inside);
    }
  });

  it('warn from the coin below the floor on, and not of what is under it anyway', () => {
    const floor = Number(all.price('fob', 'stall', 'floor'));
    const least = Math.floor(floor * 100) / 100;
    expect(least).toBeLessThan(floor);
    const check = (asking: number, off: number) => {
      const { quantity } = figures({
        'price_breaks.csv': `channel,from_pieces,discount_percent,for\nstall,3,${off},fob\n`,
        'set_prices.csv': `product,channel,asking\nfob,stall,${asking.toFixed(2)}\n`,
      });
      return [quantity('fob', 'stall', 'price'), quantity('fob', 'stall', 'floor_check')];
    };
    // A tenth off comes to the last coin that loses nothing; of that coin itself nothing may be given.
    expect(check(coins(least / 0.9), 10)).toEqual([least, 'well']);
    expect(check(coins((least - 0.01) / 0.9), 10)).toEqual([coins(least - 0.01), 'look']);
    expect(check(least, 1)[1]).toBe('look');
    const between = coins((unitCost('fob') + floor) / 2);
    expect(between).toBeGreaterThan(unitCost('fob'));
    expect(check(between, 1)[1]).toBe('well');
  });

  it('warn where only the discount takes a price under its floor', () => {
    const check = (more: Readonly<Record<string, string>>) =>
      figures(more).quantity('fob', 'stall', 'floor_check');
    const broken = (off: number) => ({
      'price_breaks.csv': `channel,from_pieces,discount_percent,for\nstall,3,${off},fob\n`,
    });
    const floor = Number(all.price('fob', 'stall', 'floor'));
    const asking = Number(all.price('fob', 'stall', 'asking'));
    expect(check(broken(1))).toBe('well');
    expect(check(broken(100 * (1 - floor / asking) + 1))).toBe('look');
    // Under its floor already: that is told with the price itself.
    expect(check({ ...broken(5), 'set_prices.csv': 'product,channel,asking\nfob,stall,2.00\n' })).toBe(
      'well',
    );
  });

  it('name what there is', () => {
    const { problems } = priceFiles(
      book({ 'price_breaks.csv': 'channel,from_pieces,discount_percent,for\nstall,3,10,big things\n' }),
    );
    expect(problems.map(({ message }) => message).join('\n')).toContain(
      '“big things” is no product and no family',
    );
  });
});

describe('where a price cannot do what is wanted', () => {
  const share = (percent: number, more: Readonly<Record<string, string>> = {}) => ({
    'fees.csv': `channel,fee,percent,taken_on\nstall,all of it,${percent},net price\n`,
    'set_prices.csv': 'product,channel,asking\n',
    ...more,
  });

  it('fees and margin that eat the price are an error, up to the last thousandth', () => {
    const told = (percent: number): number =>
      priceFiles(book(share(percent))).problems.filter(({ message }) =>
        message.startsWith('Channel stall, product fob: fees'),
      ).length;
    expect(told(69)).toBe(1);
    expect(told(68.9)).toBe(0);
    expect(told(100)).toBe(1);
  });

  it('no target and no floor stand where there is no room for one', () => {
    const { values } = priceFiles(book(share(69)));
    expect(values?.get('prices', 'target', 0)).toBe(0);
    expect(Number(values?.get('prices', 'floor', 0))).toBeGreaterThan(0);
    expect(priceFiles(book(share(100))).values?.get('prices', 'floor', 0)).toBe(0);
  });

  it('a sale that costs less than nothing has no price below nothing', () => {
    // Postage is charged dearly and costs nothing, so that a piece of 0.40 pays for itself.
    const dear = figures({
      'channels.csv': 'channel,postage_charged\nonline,9\n',
      'fees.csv': 'channel,fee,percent\nonline,none,0\n',
      'set_prices.csv': 'product,channel,asking\n',
      'price_breaks.csv': 'channel,from_pieces,discount_percent,for\n',
    });
    expect(dear.price('lead', 'online', 'floor')).toBe(0);
    expect(dear.price('lead', 'online', 'target')).toBe(0);
    near(dear.price('lead', 'online', 'asking'), 6.13);
    near(dear.price('lead', 'online', 'profit'), 6.13 + 9 - 0.4);
  });

  describe('margin and markup', () => {
    /** One product in one channel without fees or post, at a price set by hand. */
    const sale = (
      {
        part,
        wage = 0,
        minutes = 0,
        asking,
      }: { part: number; wage?: number; minutes?: number; asking?: number },
      channel = 'channel\nstall\n',
    ) => {
      const { values } = priceFiles(
        new Map(
          Object.entries({
            'book.yaml': `currency: USD\nwage_per_hour: ${wage}\nbench_hours_per_month: 50\nwanted_margin_percent: 0\n`,
            'overheads.csv': 'overhead,per_month\nall,300\n',
            'materials.csv': `material,sold_by,diameter,pack,pack_price\ncord,length,4,100,0\nring,piece,,1,${part}\n`,
            'products.csv': 'product,weave,over_cord,woven_length_set\nlead,bar,cord,1\n',
            'parts.csv': 'product,material,quantity\nlead,ring,1\n',
            'work.csv': `for,step,minutes_per_piece\nlead,make,${minutes}\n`,
            'channels.csv': channel,
            'price_breaks.csv': 'channel,from_pieces,discount_percent,for\nstall,10,10,lead\n',
            ...(asking === undefined
              ? {}
              : { 'set_prices.csv': `product,channel,asking\nlead,stall,${asking}\n` }),
          }),
        ),
      );
      return (id: string, sheet = 'prices'): unknown => values?.get(sheet, id, 0);
    };

    it('are shares of a price and of a cost however small both are', () => {
      const small = sale({ part: 0.4, asking: 0.5 });
      near(small('margin'), 0.1 / 0.5);
      near(small('markup'), 0.1 / 0.4);
      near(small('margin', 'break_prices'), 0.05 / 0.45);
    });

    it('count overhead among what a sale costs, though nothing else does', () => {
      // An hour at the bench at no wage, with 300 of overhead over 50 hours.
      const bare = sale({ part: 0, minutes: 60, asking: 10 });
      near(bare('contribution'), 10);
      near(bare('markup'), (10 - 6) / 6);
    });

    it('are nothing where the price is nothing, or the sale costs nothing or less', () => {
      const given = sale({ part: 0.4 }, 'channel,postage_charged\nstall,9\n');
      expect(['asking', 'net', 'margin', 'markup'].map((id) => given(id))).toEqual([0, 0, 0, 0]);
      expect(['price', 'net', 'margin'].map((id) => given(id, 'break_prices'))).toEqual([0, 0, 0]);
      near(given('profit'), 9 - 0.4);
      const free = sale({ part: 0, asking: 5 });
      expect(free('markup')).toBe(0);
      near(free('margin'), 1);
    });
  });

  it('an asking price is under its floor from the coin below on', () => {
    const floor = Number(all.price('strap', 'stall', 'floor'));
    const check = (asking: number) =>
      figures({ 'set_prices.csv': `product,channel,asking\nstrap,stall,${asking.toFixed(2)}\n` }).price(
        'strap',
        'stall',
        'floor_check',
      );
    const least = Math.floor(floor * 100) / 100;
    expect(check(least)).toBe('well');
    expect(check(least - 0.01)).toBe('look');
  });

  it.each([
    ['17.954', 17.95],
    ['17.955', 17.96],
    ['17.956', 17.96],
  ])('a price set by hand to %s asks %d, in whole coins', (set, asks) => {
    const found = figures({ 'set_prices.csv': `product,channel,asking\nfob,online,${set}\n` });
    expect(found.price('fob', 'online', 'asking')).toBe(asks);
  });

  it('an ending is below its step', () => {
    const told = (ending: string): boolean =>
      priceFiles(
        book({
          'channels.csv': `channel,price_step,price_ending\nstall,1,${ending}\nonline,1,0\nshops,1,0\n`,
        }),
      ).problems.some(({ message }) => message.includes('is not below the price step'));
    expect(told('0.99')).toBe(false);
    expect(told('1')).toBe(true);
  });

  it('a channel that says nothing sells single pieces without tax inside, without post, to the coin', () => {
    const bare = figures({
      'channels.csv': 'channel\nstall\nonline\nshops\n',
      'fees.csv': 'channel,fee,percent\nstall,card,5\n',
      'set_prices.csv': 'product,channel,asking\n',
    });
    expect(bare.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    // 5 % is of the gross price where nothing else is said: 20 % tax on top make it 6 % of the net.
    const target = unitCost('fob') / (1 - 0.06 - 0.31);
    near(bare.price('fob', 'stall', 'target'), target);
    near(bare.price('fob', 'stall', 'asking'), Math.ceil(target * 100 - 1e-7) / 100);
    near(Number(bare.price('lead', 'shops', 'asking')), 6.13);
    near(bare.price('fob', 'stall', 'postage'), 0);
    near(bare.price('fob', 'stall', 'tax_inside'), 0);
  });
});
