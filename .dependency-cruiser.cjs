/** Imports run downwards only: cli → engine's face → export → (samples, mix, month, whatif) → stock → cutting → calc → sheets → (book, cord) → (money, chance, solver). */
const layers = [
  'money',
  'chance',
  'solver',
  'cord',
  'book',
  'sheets',
  'calc',
  'samples',
  'cutting',
  'mix',
  'stock',
  'month',
  'whatif',
  'export',
];

/** What each room may import from the engine, besides itself. */
const allowed = {
  money: [],
  chance: [],
  solver: [],
  cord: ['chance'],
  book: ['money'],
  sheets: ['money', 'cord', 'book'],
  calc: ['money', 'cord', 'book', 'sheets'],
  samples: ['money', 'chance', 'cord', 'book', 'sheets', 'calc'],
  // `calc` for the type of calculated values.
  cutting: ['money', 'solver', 'book', 'sheets', 'calc'],
  // `cutting` for what lies in stock.
  mix: ['money', 'solver', 'book', 'sheets', 'calc', 'cutting'],
  // `cutting` for what pieces take from stock.
  stock: ['money', 'book', 'sheets', 'calc', 'cutting'],
  month: ['money', 'book', 'sheets', 'calc', 'stock'],
  whatif: ['money', 'chance', 'book', 'sheets', 'calc'],
  export: ['money', 'cord', 'book', 'sheets', 'calc', 'samples', 'stock', 'whatif'],
};

/** One door for each dependency. */
const doors = {
  hyperformula: '^engine/calc/',
  exceljs: '^engine/export/',
  highs: '^engine/solver/loadSolver\\.ts$',
  fflate: '^engine/export/',
  echarts: '^engine/export/report/charts/',
  yaml: '^engine/book/yamlFile\\.ts$',
  papaparse: '^engine/book/csvFile\\.ts$',
  valibot: '^engine/sheets/readSheetFile\\.ts$',
  'decimal.js': '^engine/money/',
  'pure-rand': '^engine/chance/draws\\.ts$',
  commander: '^cli/',
  'write-file-atomic': '^cli/',
};

module.exports = {
  forbidden: [
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'engine-knows-no-cli',
      severity: 'error',
      from: { path: '^engine/' },
      to: { path: '^cli/' },
    },
    {
      name: 'engine-is-pure',
      comment: 'Files, terminal, clock and environment live in cli/.',
      severity: 'error',
      from: { path: '^engine/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'cli-uses-the-face',
      comment:
        'Four doors beside the face, opened only when needed: exceljs, hyperformula, highs and echarts are slow to load.',
      severity: 'error',
      from: { path: '^cli/' },
      to: {
        path: '^engine/',
        pathNot: '^engine/(index|reference|export/workbook|export/report/reportPage|solver/loadSolver)\\.ts$',
      },
    },
    {
      name: 'page-runs-in-a-browser',
      comment:
        'What a page carries along: the runtime of programs, how a change alters a figure, how numbers are shown.',
      severity: 'error',
      from: { path: '^page/' },
      to: {
        path: '^(engine|cli)/|^node:',
        pathNot:
          '^engine/(calc/program/runtime|whatif/(change|stillEarns)|sheets/showValue|book/numberText|export/report/live/(liveModel|liveCalculation|liveWords))\\.ts$',
      },
    },
    ...layers.map((layer) => ({
      name: `arrows-of-${layer}`,
      severity: 'error',
      from: { path: `^engine/${layer}/` },
      to: { path: '^engine/', pathNot: `^engine/(${[layer, ...allowed[layer]].join('|')})/` },
    })),
    ...Object.entries(doors).map(([name, door]) => ({
      name: `one-door-for-${name}`,
      severity: 'error',
      from: { path: '^(engine|cli|page)/', pathNot: door },
      to: { path: `node_modules/${name}/` },
    })),
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};
