const money = 'money';
const pieces = 'pieces';
const count = 'count';
const share = 'share';
const diameters = 'cord diameters';
const perLength = 'length per length';
const ofResult = 'as the result';
const ofStock = 'cord unit, or pieces';

/** Units that a field's name ends in. */
const byEnding: readonly (readonly [RegExp, string])[] = [
  [/PerMm$/, 'money per mm'],
  [/Mm$/, 'mm'],
  [/GPerM$/, 'g/m'],
  [/G$/, 'g'],
  [/N$/, 'N'],
  [/(Minutes|^minutes)$/, 'min'],
  [/^benchHours(PerMonth|Left|Each|There)$/, 'h'],
  [/(Hours|^hours)$/, 'h'],
  [/^(layeredP|p)itchRatio$/, diameters],
  [/Ratio$/, share],
  [/Degrees$/, 'degrees'],
];

/** What numbers of a type are where neither the list below nor their name says otherwise. */
const byType: Readonly<Record<string, string>> = {
  BreakEvenReport: money,
  MixBreakEven: money,
  PairBreakEven: money,
  WholeBreakEven: pieces,
  Card: count,
  CardCord: count,
  CardEnd: count,
  CordReport: perLength,
  StockChange: count,
  OrderLine: pieces,
  MaterialCut: money,
  StockCut: count,
  Pieces: pieces,
  Purchase: money,
  PartNeed: pieces,
  ReportedFit: 'as the figure',
  ReportedProduct: money,
  MixRow: 'pieces per month',
  MixTotal: money,
  ChannelMonth: money,
  StockMonth: money,
  JournalRow: money,
  ProductPrice: money,
  ChannelPrice: money,
  ListedPrice: money,
  PriceList: money,
  CostParts: money,
  MonthFigures: money,
  BreakEven: money,
  Sensitivity: ofResult,
  SensitivityReport: ofResult,
  SensitivityLine: ofResult,
  TriedFigure: ofResult,
  SweepTableReport: ofResult,
  RiskLine: ofResult,
  AnswerCheck: ofResult,
  Driver: share,
  ChangeReport: count,
  PriceState: money,
  MonthState: money,
  StockReport: ofStock,
  StockItemReport: 'money per unit of stock',
  StockRoll: 'of a quantity, cord unit or pieces; of a value, money',
  VarianceReport: money,
  CutReport: money,
  Place: count,
  cut: money,
  mix: money,
  month: money,
  workbook: 'bytes',
};

const byField: Readonly<Record<string, string>> = {
  'MixBreakEven.pieces': 'pieces per month',
  'MixBreakEven.breakEven.pieces': 'pieces per month',
  'MixBreakEven.breakEven.share': 'share of the expected sales',
  'MixBreakEven.forWantedProfit.pieces': 'pieces per month',
  'MixBreakEven.forWantedProfit.share': 'share of the expected sales',
  'MixBreakEven.rows[].pieces': 'pieces per month',
  'MixBreakEven.rows[].breakEvenPieces': 'pieces per month',
  'MixBreakEven.rows[].wantedPieces': 'pieces per month',
  'WholeBreakEven.takings': money,
  'Card.minutesPerPiece': 'min',
  'CardPart.quantity': ofStock,
  'CardPart.batchQuantity': ofStock,
  'CardStep.minutesPerBatch': 'min',
  'CardStep.minutesPerPiece': 'min',
  'CardStep.minutesPerLength': 'min per length unit',
  'CordReport.layers': count,
  'CordReport.coreStrands': count,
  'CordReport.halfKnots.count': count,
  'CordReport.chanceOfShort': share,
  'CordCut.pieces': count,
  'CordCut.strandsPerPiece': count,
  'CordCut.takeUp': perLength,
  'MaterialCut.cuts[].pieces': pieces,
  'MaterialCut.cuts[].for[].pieces': pieces,
  'Purchase.packPieces': pieces,
  'Purchase.packs': count,
  'Purchase.packsRow': count,
  'PartNeed.buyCost': money,
  'Quality.bound': 'money, or mm where stock opened is judged',
  'FitReport.chanceOfShort': share,
  'FitReport.coreTakeUps[].count': count,
  'FitReport.coreTakeUps[].value': perLength,
  'FitReport.coreTakeUps[].standardError': perLength,
  'ReportedFit.degreesOfFreedom': count,
  'ReportedFit.predictionDegrees': count,
  'ReportedSample.takeUp': perLength,
  'ReportedSample.fittedTakeUp': perLength,
  'ReportedSample.valueByCord': 'as the figure',
  'ReportedSample.valueByCount': 'as the figure',
  'ReportedSample.deletedResidual': 'standard errors',
  'MixRow.contributionEach': money,
  'MixRow.reducedWorth': 'money per piece',
  'MixRow.worthOfOneMoreSold': money,
  'MixRow.worthOfOneLessPromised': money,
  'MixLimitReport.available': 'h of bench, or unit of stock',
  'MixLimitReport.taken': 'h of bench, or unit of stock',
  'MixLimitReport.takenWhole': 'h of bench, or unit of stock',
  'MixLimitReport.worthEach': 'money per unit of the limit',
  'MixLimitReport.worthOfOneMore': 'money per unit of the limit',
  'ChannelMonth.piecesSold': pieces,
  'ChannelMonth.piecesReturned': pieces,
  'ProductPrice.unweighed': count,
  'ChannelPrice.wantedMargin': 'share of the net price',
  'ChannelPrice.margin': 'share of the net price',
  'ChannelPrice.markup': 'share of all that the sale costs',
  'ChannelPrice.contributionPerHour': 'money per h',
  'PriceList.tradeDiscount': share,
  'PriceList.breaksFrom': pieces,
  'ListedTax.ratio': share,
  'BreakEven.piecesWhole': pieces,
  'Driver.correlation': '-1 to 1',
  'FoundResult.row': count,
  'Sensitivity.range': share,
  'SensitivityReport.range': share,
  'SweepTableReport.results[].rows': ofResult,
  'StockReport.totals': money,
  'SensitivityLine.cells': count,
  'PriceState.margin': 'share of the net price',
  'RiskReport.draws': count,
  'RiskReport.seed': 'a whole number',
  'RiskReport.inputs[].shape.least': 'as the input, or a change of it',
  'RiskReport.inputs[].shape.likely': 'as the input, or a change of it',
  'RiskReport.inputs[].shape.greatest': 'as the input, or a change of it',
  'RiskReport.inputs[].shape.middle': 'as the input, or a change of it',
  'RiskReport.inputs[].shape.below': 'standard deviation, as the input or of its logarithm',
  'RiskReport.inputs[].shape.above': 'standard deviation, as the input or of its logarithm',
  'RiskReport.stopped[].draws': count,
  'RiskLine.missed': 'share of the draws',
  'RiskLine.missedError': 'share of the draws',
  'RiskLine.failed': 'share of the draws',
  'SolveReport.cells': count,
  'SolveReport.resultToday': ofResult,
  'SolvedPoint.at': 'as the input',
  'SolvedPoint.alteration.by': 'as the change',
  'SolvedPoint.alteration.value': 'as the input',
  'SolvedPoint.result': ofResult,
  'SolvedPoint.wanted': ofResult,
  'NewFinding.rows': count,
  'StockMoveReport.quantity': ofStock,
  'StockMoveReport.value': money,
  'StockReport.counts[].value': money,
  'VarianceReport.productTotals.pieces': pieces,
  'VarianceReport.overhead.months': count,
  'VarianceReport.materials[].standardUnitCost': 'money per unit of stock',
  'VarianceReport.materials[].bought': ofStock,
  'VarianceReport.materials[].lostQuantity': ofStock,
  'VarianceReport.use[].normal': ofStock,
  'VarianceReport.use[].taken': ofStock,
  'VarianceReport.products[].pieces': pieces,
};

/**
 * The unit of a number that a command prints.
 *
 * @throws where none is known: a new field says its unit in its name, or here
 */
export function unitOf(type: string, path: string): string {
  const field = byField[`${type}.${path}`];
  if (field !== undefined) return field;
  const name = path.split('.').at(-1) ?? '';
  const unit = byEnding.find(([ending]) => ending.test(name))?.[1] ?? byType[type];
  if (unit === undefined)
    throw new Error(`${type}.${path} has no unit: say it in tests/docs/reference/units.ts`);
  return unit;
}

/** Fields named above, for a test that none of them is gone. */
export const fieldsWithUnits: readonly string[] = Object.keys(byField);
export const typesWithUnits: readonly string[] = Object.keys(byType);

/** Whether a field that holds numbers deeper inside has a unit of its own. */
export const hasUnit = (type: string, path: string): boolean => byField[`${type}.${path}`] !== undefined;
