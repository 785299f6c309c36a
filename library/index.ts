/**
 * Sennit for other programs: `import { ... } from "sennit"`. A book is given as texts, and every question about it is a
 * pure function: no files, no clock, nothing of Node, so it runs in a page as well. What a maker can mend comes back as
 * problems with their place; what is thrown is a fault of Sennit.
 *
 * A type that these functions speak of stands here too (the build sees to it). See docs/library.md.
 */
// Questions.

// What questions and answers are made of.
export type {
  Book,
  BookValue,
  CellValue,
  ChangeReport,
  ChannelPrice,
  CordCut,
  CordReport,
  CutReport,
  DecimalMark,
  LengthUnit,
  ListedFamily,
  ListedPrice,
  ListedProduct,
  ListedSize,
  ListedTax,
  MaterialCut,
  MaterialWeight,
  Measure,
  MonthState,
  NumberKind,
  Order,
  OrderLine,
  PartNeed,
  Pieces,
  Place,
  PriceList,
  PriceReport,
  PriceState,
  Problem,
  ProblemCode,
  ProductPrice,
  Purchase,
  Quality,
  Settings,
  Severity,
  StockCut,
  StopSignal,
  Table,
  Weight,
  WeightUnit,
  WhatIfPrice,
  WhatIfReport,
  WhatIfScenario,
} from '../engine/index.ts';
// Measures and problems.
export {
  convertLength,
  convertWeight,
  hasErrors,
  parseMeasure,
  parseWeight,
  placeText,
  problemCodes,
  problemsText,
  problemText,
} from '../engine/index.ts';
export type { Answer } from './answer.ts';
export {
  type CalculatedColumn,
  type CalculatedSheet,
  calculateBook,
  checkBook,
  priceBook,
  readBook,
  type WhatIfChanges,
  whatIf,
} from './askBook.ts';
export { type BookTexts, starterBook } from './bookTexts.ts';
export { type CordRole, cordOfPiece, type Piece, weaveNames } from './cordOfPiece.ts';
export { type LoadedSolver, loadSolver } from './loadSolver.ts';
export { type CuttingQuestion, planCutting } from './planCutting.ts';
export { listPrices, type PriceListChoice, type PriceListFile, writePriceList } from './priceLists.ts';
export { version } from './version.ts';
export { type WorkbookChoice, writeWorkbook } from './writeWorkbook.ts';
