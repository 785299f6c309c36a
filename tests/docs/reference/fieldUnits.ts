/** Units in which several types count. */
const money = 'money';
const pieces = 'pieces';
const count = 'count';
const share = 'share';
const perLength = 'length per length';
const ofResult = 'as the result';
const ofStock = 'cord unit, or pieces';

/** Fields of one unit, with blanks between them. */
type InUnit = readonly [unit: string, fields: string];

/**
 * What numbers of a type are, field by field, where their names do not say it. There is no unit for whatever else a
 * type may get: a new field says its own.
 */
export const fieldUnits: Readonly<Record<string, readonly InUnit[]>> = {
  AnswerCheck: [[ofResult, 'result wanted residual']],
  BreakEven: [
    [money, 'contributionEach'],
    [pieces, 'piecesWhole'],
  ],
  BreakEvenReport: [[money, 'overheadPerMonth wantedProfitPerMonth wantedProfitBeforeTax']],
  Card: [
    [
      count,
      'layers mostLayers overStrands underStrands passesOver coreStrands knots halfKnotsToTie hitches strandsAcross bandKnots batchSize',
    ],
    ['min', 'minutesPerPiece'],
  ],
  CardCord: [[count, 'cords strandsInEach batchCords']],
  CardEnd: [[count, 'count']],
  CardPart: [[ofStock, 'quantity batchQuantity']],
  CardStep: [
    ['min', 'minutesPerBatch minutesPerPiece'],
    ['min per length unit', 'minutesPerLength'],
  ],
  ChangeReport: [[count, 'cells']],
  ChannelMonth: [
    [pieces, 'piecesSold piecesReturned'],
    [money, 'net tax gross fees shouldArrive costOfSales grossMargin'],
  ],
  ChannelPrice: [
    [money, 'floor target asking net fees contribution profit'],
    ['share of the net price', 'wantedMargin margin'],
    ['share of all that the sale costs', 'markup'],
    ['money per h', 'contributionPerHour'],
  ],
  CordCut: [
    [count, 'pieces strandsPerPiece'],
    [perLength, 'takeUp'],
  ],
  CordReport: [
    [count, 'layers coreStrands halfKnots.count'],
    [perLength, 'takeUp takeUpByGeometry takeUpByLayer coreTakeUp'],
    [share, 'chanceOfShort'],
  ],
  CostParts: [[money, 'cords parts']],
  cut: [[money, 'shoppingCost']],
  CutReport: [[money, 'shoppingCost']],
  Driver: [
    ['-1 to 1', 'correlation'],
    [share, 'share'],
  ],
  FitReport: [
    [share, 'chanceOfShort'],
    [count, 'coreTakeUps[].count'],
    [perLength, 'coreTakeUps[].value coreTakeUps[].standardError'],
  ],
  FoundResult: [[count, 'row']],
  JournalRow: [[money, 'debit credit']],
  ListedPrice: [[money, 'listPrice price breakPrices']],
  ListedTax: [[share, 'ratio']],
  MaterialCut: [
    [pieces, 'cuts[].pieces cuts[].for[].pieces'],
    [money, 'buyCost uncutCost keptValue goneCost'],
  ],
  mix: [[money, 'overheadPerMonth labourPerHour bestWhole.contribution bestWhole.profit']],
  MixBreakEven: [
    [
      'pieces per month',
      'pieces breakEven.pieces forWantedProfit.pieces rows[].pieces rows[].breakEvenPieces rows[].wantedPieces',
    ],
    [
      money,
      'takings contribution profit profitTax profitAfterTax breakEven.takings forWantedProfit.takings marginOfSafety rows[].takings rows[].contribution',
    ],
    ['share of the expected sales', 'breakEven.share forWantedProfit.share'],
  ],
  MixLimitReport: [
    ['h of bench, or unit of stock', 'available taken takenWhole'],
    ['money per unit of the limit', 'worthEach worthOfOneMore'],
  ],
  MixRow: [
    [money, 'contributionEach worthOfOneMoreSold worthOfOneLessPromised'],
    ['pieces per month', 'expected atLeast atMost best bestWhole'],
    ['money per piece', 'reducedWorth'],
  ],
  MixTotal: [[money, 'contribution profit']],
  month: [
    [
      money,
      'lateChanges[].change netSales costOfSales grossMargin taxCollected taxCollectedLate taxReclaimedLate taxReclaimed taxBalance variances.price variances.usage variances.lost variances.wageRate variances.efficiency variances.overhead debits credits',
    ],
  ],
  MonthFigures: [[money, 'takings contribution overhead profit breakEvenTakings wantedTakings']],
  MonthState: [[money, 'takings contribution profit']],
  NewFinding: [[count, 'rows']],
  OrderLine: [[pieces, 'quantity']],
  PairBreakEven: [[money, 'netEach contributionEach']],
  PartNeed: [
    [pieces, 'pieces onHandPieces missingPieces'],
    [money, 'buyCost'],
  ],
  Pieces: [[pieces, 'pieces']],
  Place: [[count, 'row line']],
  PriceList: [
    [share, 'tradeDiscount'],
    [money, 'leastOrder'],
    [pieces, 'breaksFrom'],
  ],
  PriceState: [
    [money, 'unitCost floor asking net contribution profit'],
    ['share of the net price', 'margin'],
  ],
  ProductPrice: [
    [money, 'materials labour overhead unitCost variableCost'],
    [count, 'unweighed'],
  ],
  Purchase: [
    [pieces, 'packPieces'],
    [count, 'packs packsRow'],
    [money, 'costEach cost'],
  ],
  Quality: [['money, or mm where stock opened is judged', 'bound']],
  ReportedFit: [
    ['as the figure', 'value standardError low95 high95 bookValue'],
    [count, 'degreesOfFreedom predictionDegrees'],
  ],
  ReportedProduct: [[money, 'expectedOffcutCost']],
  ReportedSample: [
    [perLength, 'takeUp fittedTakeUp'],
    ['as the figure', 'valueByCord valueByCount'],
    ['standard errors', 'deletedResidual'],
  ],
  RiskLine: [
    [
      ofResult,
      'wanted today mean spread percentiles.p5 percentiles.p25 percentiles.p50 percentiles.p75 percentiles.p95',
    ],
    ['share of the draws', 'missed missedError failed'],
  ],
  RiskReport: [
    [count, 'draws stopped[].draws'],
    ['a whole number', 'seed'],
    [
      'as the input, or a change of it',
      'inputs[].shape.least inputs[].shape.likely inputs[].shape.greatest inputs[].shape.middle',
    ],
    ['standard deviation, as the input or of its logarithm', 'inputs[].shape.below inputs[].shape.above'],
  ],
  Sensitivity: [
    [share, 'range'],
    [ofResult, 'today'],
  ],
  SensitivityLine: [
    [count, 'cells'],
    [ofResult, 'effect'],
  ],
  SensitivityReport: [
    [share, 'range'],
    [ofResult, 'today'],
  ],
  SolvedPoint: [
    ['as the input', 'at alteration.value'],
    ['as the change', 'alteration.by'],
    [ofResult, 'result wanted'],
  ],
  SolveReport: [
    [count, 'cells'],
    [ofResult, 'resultToday'],
  ],
  StockChange: [[count, 'row']],
  StockCut: [[count, 'stockRow times']],
  StockItemReport: [['money per unit of stock', 'unitCost standardUnitCost']],
  StockMonth: [[money, 'opening changedSinceClosing in out taken counted corrected closing']],
  StockMoveReport: [
    [ofStock, 'quantity'],
    [money, 'value'],
  ],
  StockReport: [
    [money, 'totals counts[].value'],
    [
      ofStock,
      'use[].normal use[].taken use[].beyond counts[].counted counts[].expected counts[].difference shortages[].below',
    ],
  ],
  StockRoll: [
    [
      'of a quantity, cord unit or pieces; of a value, money',
      'opening bought made used sold waste given counted corrected other closing',
    ],
  ],
  SweepTableReport: [[ofResult, 'results[].today results[].rows']],
  TriedFigure: [[ofResult, 'result']],
  VarianceReport: [
    [
      money,
      'totals.price totals.usage totals.lost totals.wageRate totals.efficiency totals.total materialTotals.paid materialTotals.planned materialTotals.total productTotals.wageRate productTotals.efficiency productTotals.usage productTotals.total overhead.planned overhead.absorbed overhead.paid overhead.spending overhead.idle overhead.notAbsorbed materials[].paid materials[].planned materials[].price materials[].usage materials[].lost materials[].total use[].usage products[].labour products[].plannedLabour products[].wageRate products[].efficiency products[].usage products[].total',
    ],
    [pieces, 'productTotals.pieces products[].pieces'],
    [count, 'overhead.months'],
    ['money per unit of stock', 'materials[].standardUnitCost'],
    [ofStock, 'materials[].bought materials[].lostQuantity use[].normal use[].taken'],
  ],
  WholeBreakEven: [
    [pieces, 'piecesWhole pieces'],
    [money, 'takings'],
  ],
  workbook: [['bytes', 'bytes']],
};
