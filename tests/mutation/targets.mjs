// What is put to the test, and by which tests: the quick ones first, and the rest only for faults that these let pass.
const cord = (name) => ({
  file: `engine/cord/${name}.ts`,
  stages: [[`tests/cord/${name}.test.ts`], ['tests/cord/index.test.ts', 'tests/checks/cordRules.test.ts']],
});

const pricing = {
  own: ['tests/checks/pricing.test.ts', 'tests/checks/costing.test.ts'],
  wide: [
    'tests/checks/breakEven.test.ts',
    'tests/checks/endsAndWeights.test.ts',
    'tests/bench/handWritten.test.ts',
    'tests/golden/books.test.ts',
    'tests/export/priceList/priceListReport.test.ts',
  ],
};
const sheet = (name, only) => ({
  file: `templates/sheets/${name}.yaml`,
  only,
  stages: [pricing.own, pricing.wide],
});

export const targets = {
  cord: [
    cord('band'),
    cord('bar'),
    cord('braid'),
    cord('chain'),
    cord('cordFunction'),
    cord('crown'),
    cord('hitch'),
    cord('index'),
    cord('plait'),
    cord('roundBraid'),
    cord('slipLoop'),
    cord('slot'),
    cord('snake'),
    cord('spareFactor'),
    cord('spareLeft'),
    cord('stripe'),
    cord('twist'),
    cord('wrap'),
    cord('zigzag'),
  ],
  money: ['currencies', 'exact', 'rounding', 'split'].map((name) => ({
    file: `engine/money/${name}.ts`,
    stages: [[`tests/money/${name}.test.ts`]],
  })),
  pricing: [
    sheet('rates', [
      'labour_per_hour',
      'overhead_per_month',
      'overhead_per_hour',
      'on_costs_percent',
      'tax_percent',
      'minutes_per_hour',
    ]),
    sheet('materials', [
      'freight',
      'duty_percent',
      'unreclaimed_tax_percent',
      'waste_percent',
      'landed_pack',
      'unit_cost',
    ]),
    sheet('cuts', ['cord_used', 'unit_cost', 'cost_in_piece', 'cost_cut_away', 'cost', 'offcut', 'lost']),
    sheet('parts', ['unit_cost', 'cost', 'from_stock', 'batch_quantity']),
    sheet('work'),
    sheet('costs'),
    sheet('fees'),
    sheet('channels'),
    sheet('prices'),
    sheet('price_breaks'),
    sheet('break_prices'),
    sheet('price_list'),
  ],
};
