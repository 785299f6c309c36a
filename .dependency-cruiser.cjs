/** Imports run downwards only: (cli, library) → engine's face → (export, takein) → (samples, mix, month, whatif) → stock → cutting → (calc, origin) → sheets → (book, cord) → (money, chance, solver, archive). */
const layers = [
  'archive',
  'money',
  'chance',
  'solver',
  'cord',
  'book',
  'sheets',
  'origin',
  'calc',
  'samples',
  'cutting',
  'mix',
  'stock',
  'month',
  'whatif',
  'export',
  'takein',
];

/** What each room may import from the engine, besides itself. */
const allowed = {
  archive: [],
  money: [],
  chance: [],
  solver: [],
  cord: ['chance'],
  book: ['money'],
  sheets: ['money', 'cord', 'book'],
  // What a workbook remembers of its book: written by `export`, read by `takein`.
  origin: ['book', 'sheets'],
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
  export: ['archive', 'money', 'cord', 'book', 'sheets', 'origin', 'calc', 'samples', 'stock', 'whatif'],
  takein: ['archive', 'money', 'book', 'sheets', 'origin', 'calc'],
};

/** One door for each dependency. */
const doors = {
  hyperformula: '^engine/calc/',
  exceljs: '^engine/export/',
  highs: '^engine/solver/loadSolver\\.ts$',
  fflate: '^engine/(archive/|export/xlsx/packFile\\.ts$)',
  saxes: '^engine/takein/read/readXml\\.ts$',
  echarts: '^engine/export/report/charts/',
  yaml: '^engine/book/files/(yamlFile|editYaml)\\.ts$',
  papaparse: '^engine/book/files/csvFile\\.ts$',
  valibot: '^engine/(sheets/readSheetFile|origin/originCells)\\.ts$',
  'decimal.js': '^engine/money/',
  'pure-rand': '^engine/chance/draws\\.ts$',
  commander: '^cli/',
};

module.exports = {
  forbidden: [
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'engine-knows-no-cli',
      severity: 'error',
      from: { path: '^engine/' },
      to: { path: '^(cli|library)/' },
    },
    {
      name: 'library-is-apart-from-cli',
      comment: 'library/ is the face for other programs, cli/ is a program: neither knows the other.',
      severity: 'error',
      from: { path: '^(cli|library)/' },
      to: { path: '^(cli|library)/', pathNot: '^$1/' },
    },
    {
      name: 'library-runs-in-a-browser',
      comment: 'Only library/node.ts, a face of its own, may use a file system.',
      severity: 'error',
      from: { path: '^library/', pathNot: '^library/node\\.ts$' },
      to: { path: '^library/node\\.ts$' },
    },
    {
      name: 'library-is-pure',
      severity: 'error',
      from: { path: '^library/', pathNot: '^library/node\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'engine-is-pure',
      comment: 'Files, terminal, clock and environment live in cli/.',
      severity: 'error',
      from: { path: '^engine/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'house-uses-the-engines-face',
      comment:
        'engine/index.ts is what the command line and the library build on; it promises outsiders nothing. Doors beside the face, opened only when needed: exceljs, hyperformula, highs, echarts and the reader of workbooks are slow to load.',
      severity: 'error',
      from: { path: '^(cli|library)/' },
      to: {
        path: '^engine/',
        pathNot:
          '^engine/(index|reference|export/workbook|export/report/reportPage|export/priceList/priceListWorkbook|solver/loadSolver|takeinBook)\\.ts$',
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
          '^engine/(calc/program/runtime|whatif/words/change|sheets/showValue|book/measures/numberText|export/report/live/(liveModel|liveCalculation|liveWords))\\.ts$',
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
      from: { path: '^(engine|cli|library|page)/', pathNot: door },
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
