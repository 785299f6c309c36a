/** Imports run downwards only: cli → engine's face → (export, samples, cutting) → calc → sheets → (book, cord) → (money, chance). */
const layers = ['money', 'chance', 'cord', 'book', 'sheets', 'calc', 'samples', 'cutting', 'whatif', 'export'];

/** What each room may import from the engine, besides itself. */
const allowed = {
  money: [],
  chance: [],
  cord: ['chance'],
  book: ['money'],
  sheets: ['money', 'cord', 'book'],
  calc: ['money', 'cord', 'book', 'sheets'],
  samples: ['money', 'chance', 'cord', 'book', 'sheets', 'calc'],
  // `calc` for the type of calculated values.
  cutting: ['money', 'book', 'sheets', 'calc'],
  whatif: ['money', 'chance', 'book', 'sheets', 'calc'],
  export: ['money', 'cord', 'book', 'sheets', 'calc', 'samples'],
};

/** One door for each dependency. */
const doors = {
  hyperformula: '^engine/calc/',
  exceljs: '^engine/export/',
  highs: '^engine/cutting/loadSolver\\.ts$',
  fflate: '^engine/export/',
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
        'Three doors beside the face, opened only when needed: exceljs, hyperformula and highs are slow to load.',
      severity: 'error',
      from: { path: '^cli/' },
      to: { path: '^engine/', pathNot: '^engine/(index|reference|export/workbook|cutting/loadSolver)\\.ts$' },
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
      from: { path: '^(engine|cli)/', pathNot: door },
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
