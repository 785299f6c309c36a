/** Tables of what happened; a test that takes the products of a demo book away takes them away too. */
export const historyTables: readonly string[] = [
  'purchases.csv',
  'purchase_costs.csv',
  'day_rates.csv',
  'made.csv',
  'used.csv',
  'sales.csv',
  'stocktakes.csv',
  'overheads_paid.csv',
  'accounts.csv',
];
