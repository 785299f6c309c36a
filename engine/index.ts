/**
 * What the engine offers to the rest of the house, the command line (cli/) and the library (library/): a book in, a plan
 * and its values out, and renderings of them. It changes as they need it; the face that others build on is
 * library/index.ts. Nothing here touches files, the terminal or the clock.
 */
export type { Book, BookFiles, BookValue, Table } from './book/book.ts';
export { decodeText } from './book/files/decodeText.ts';
export type { NumberKind } from './book/measures/kinds.ts';
export {
  convertLength,
  feetAndInches,
  type LengthUnit,
  lengthUnit,
  type Measure,
  mmPerUnit,
  parseMeasure,
} from './book/measures/measure.ts';
export { type DecimalMark, parseNumber } from './book/measures/numberText.ts';
export { convertWeight, parseWeight, type Weight, type WeightUnit } from './book/measures/weight.ts';
export { meantName, mendName, someNames } from './book/problems/nearest.ts';
export {
  hasErrors,
  type Place,
  type Problem,
  type ProblemCode,
  placeText,
  problem,
  problemCodes,
  type Severity,
} from './book/problems/problem.ts';
export { problemsText, problemText } from './book/problems/problemText.ts';
export { readBook } from './book/readBook.ts';
export type { Settings } from './book/settings.ts';
export { type BreakEvenQuestion, breakEvenBook } from './breakEvenBook.ts';
export { calculate } from './calc/compiled/calculate.ts';
export { findings } from './calc/findings.ts';
export { isFailure, type Result, type Values } from './calc/values.ts';
export { batchTables } from './cutting/batchTables.ts';
export { cutBook } from './cutting/cutBook.ts';
export type { CutBookOptions } from './cutting/cutMaterial.ts';
export type {
  CutReport,
  MaterialCut,
  PartNeed,
  Pieces,
  Purchase,
  Quality,
  StockCut,
} from './cutting/cutReport.ts';
export { cutSettings } from './cutting/cutSettings.ts';
export {
  combined,
  largestQuantity,
  linesToMake,
  type Order,
  type OrderLine,
  productNames,
  unknownProduct,
} from './cutting/order.ts';
export { stockChanges } from './cutting/stockChanges.ts';
export type { StopSignal } from './cutting/task.ts';
export type { StockChange } from './cutting/writtenStock.ts';
export {
  type BreakEven,
  type BreakEvenReport,
  breakEvenReport,
  type MixBreakEven,
  type PairBreakEven,
} from './export/answers/breakEvenReport.ts';
export { type CordCut, type CordReport, cordReport } from './export/answers/cordReport.ts';
export { type FitReport, fitReport, type ReportedFit } from './export/answers/fitReport.ts';
export {
  type ChannelMonth,
  type JournalRow,
  type MonthReport,
  monthReport,
  type StockMonth,
} from './export/answers/monthReport.ts';
export {
  type ChannelPrice,
  type MaterialWeight,
  type PriceReport,
  type ProductPrice,
  priceReport,
} from './export/answers/priceReport.ts';
export {
  type StockItemReport,
  type StockReport,
  type StockRoll,
  stockReport,
} from './export/answers/stockReport.ts';
export { type VarianceReport, varianceReport } from './export/answers/varianceReport.ts';
export { withBatches } from './export/cards/batches.ts';
export type { Card, CardCord, CardEnd, CardPart, CardReport, CardStep } from './export/cards/card.ts';
export { cardPage } from './export/cards/cardPage.ts';
export { type CardChoice, cardReport } from './export/cards/cardReport.ts';
export { type ProductFamily, productFamilies } from './export/cards/families.ts';
export { fitPicture } from './export/fitPicture.ts';
export { monthFront } from './export/pages/monthFront.ts';
export { listedAlike } from './export/priceList/alike.ts';
export type {
  ListedFamily,
  ListedPrice,
  ListedProduct,
  ListedSize,
  ListedTax,
  PriceList,
} from './export/priceList/priceList.ts';
export { priceListCsv } from './export/priceList/priceListCsv.ts';
export { priceListPage } from './export/priceList/priceListPage.ts';
export { listChannels, priceListReport } from './export/priceList/priceListReport.ts';
export { listedUnderFloor } from './export/priceList/underFloor.ts';
export { type FitQuestion, type FittedBook, fitBook } from './fitBook.ts';
export { mixBook } from './mix/mixBook.ts';
export type { MixLimitReport, MixReport, MixRow, MixTotal } from './mix/mixReport.ts';
export type { MixOptions } from './mix/readMixTask.ts';
export {
  type ChangedFigure,
  closedFile,
  closedText,
  type MonthFigure,
  monthOfClosedFile,
} from './month/closedMonth.ts';
export type { ClosedFiles } from './month/closedMonths.ts';
export { journalCsv } from './month/journalCsv.ts';
export type { PostedLine } from './month/monthFigures.ts';
export { type MonthPeriod, monthPeriod } from './month/monthPeriod.ts';
export { closedMonthProblems, type MonthBook, monthBook } from './monthBook.ts';
export type { MonthSource } from './monthHistory.ts';
export type { NewFinding } from './newFindings.ts';
export { type CordQuestion, cordDefaults, oneOffCord } from './oneOffCord.ts';
export { type Priced, priceBook, type Source } from './priceBook.ts';
export { inQuestionWords } from './questionWords.ts';
export { reportBook } from './reportBook.ts';
export { type RiskQuestion, type RiskReport, riskBook } from './riskBook.ts';
export { type WrittenCell, writeBack } from './samples/writeBack.ts';
export {
  type SensitivityQuestion,
  type SensitivityReport,
  type SweepTableReport,
  sensitivityBook,
  sweepTableBook,
  type TableQuestion,
} from './sensitivityBook.ts';
export type { CellValue, ColumnRole, Plan, PlanColumn, PlanSheet } from './sheets/plan.ts';
export { readSheetFiles } from './sheets/readDefinitions.ts';
export type { SheetFile } from './sheets/readSheetFile.ts';
export { digitsOf, showNumber, showTrimmed, showValue } from './sheets/showValue.ts';
export {
  type AnswerCheck,
  type CheckedAnswer,
  type SolveQuestion,
  type SolveReport,
  solveBook,
} from './solveBook.ts';
export type { Solver } from './solver/solver.ts';
export type { Shortage, ValuedMove } from './stock/move.ts';
export { balances, type StockLedger } from './stock/stockLedger.ts';
export type { Span } from './stock/stockTables.ts';
export { type StockBook, type StockQuestion, stockBook, stockProblems } from './stockBook.ts';
export type { PriceRule, Swept } from './sweptBook.ts';
export { type Picked, switchBook } from './switchBook.ts';
export { unlikelyFigures } from './unlikelyFigures.ts';
export { weaveNames } from './weaveNames.ts';
export { type WhatIf, whatIfBook } from './whatIfBook.ts';
export type { Driver, RiskLine } from './whatif/sweeps/risk.ts';
export type { SensitivityLine, TriedFigure } from './whatif/sweeps/sensitivity.ts';
export type { SolvedPoint } from './whatif/sweeps/solve.ts';
export type {
  ChangeReport,
  MonthState,
  PriceState,
  WhatIfPrice,
  WhatIfReport,
  WhatIfScenario,
} from './whatif/whatIf.ts';
export type { FoundResult } from './whatif/words/findResults.ts';
export type { WhatIfQuestion } from './whatif/words/question.ts';
