import { readdirSync } from 'node:fs';
import { basename } from 'node:path';

// What is put to the test, and by which tests: the quick ones first, and the rest only for faults that these let pass.
const cord = (name) => ({
  file: `engine/cord/${name}.ts`,
  stages: [[`tests/cord/${name}.test.ts`], ['tests/cord/index.test.ts', 'tests/checks/cordRules.test.ts']],
});

/** A sheet of costs, or of sales; `only` names its columns that prices hang on. */
const sheet = (name, own, only) => ({
  file: `templates/sheets/${name}.yaml`,
  only,
  stages: [
    [`tests/checks/${own}.test.ts`],
    [
      'tests/checks/costing.test.ts',
      'tests/checks/selling.test.ts',
      'tests/checks/pricing.test.ts',
      'tests/checks/endsAndWeights.test.ts',
      'tests/bench/handWritten.test.ts',
    ],
  ],
});

export const targets = {
  cord: readdirSync('engine/cord')
    .map((file) => cord(basename(file, '.ts')))
    .sort((one, other) => (one.file < other.file ? -1 : 1)),
  money: ['currencies', 'exact', 'rounding', 'split'].map((name) => ({
    file: `engine/money/${name}.ts`,
    stages: [
      name === 'rounding'
        ? ['tests/money/roundingExact.test.ts', 'tests/money/rounding.test.ts']
        : [`tests/money/${name}.test.ts`],
    ],
  })),
  pricing: [
    sheet('rates', 'costing', [
      'labour_per_hour',
      'overhead_per_month',
      'overhead_per_hour',
      'on_costs_percent',
      'tax_percent',
      'minutes_per_hour',
    ]),
    sheet('materials', 'costing', [
      'freight',
      'duty_percent',
      'unreclaimed_tax_percent',
      'waste_percent',
      'landed_pack',
      'unit_cost',
    ]),
    sheet('cuts', 'costing', [
      'cord_used',
      'unit_cost',
      'cost_in_piece',
      'cost_cut_away',
      'cost',
      'offcut',
      'lost',
    ]),
    sheet('parts', 'costing', ['unit_cost', 'cost', 'from_stock', 'batch_quantity']),
    sheet('work', 'costing'),
    sheet('costs', 'costing'),
    sheet('fees', 'selling'),
    sheet('channels', 'selling'),
    sheet('prices', 'selling'),
    sheet('price_breaks', 'selling'),
    sheet('break_prices', 'selling'),
    sheet('price_list', 'selling'),
  ],
};
