/** What a column holds; decides how text is read, how a value is shown, and which unit it is in. */
export const numberKinds = [
  'key', // names a row of this table
  'text',
  'ref', // names a row of another table
  'choice', // one of a few words
  'yes_no',
  'formula', // text in the sheet language, which WRITTEN(…) of another sheet works out
  'money',
  'percent', // held as a ratio: 40 % is 0.4
  'number',
  'count', // whole number
  'length', // the maker's short unit (in, cm, mm): pieces, bars, cuts
  'cord', // the maker's long unit (ft, yd, m): cord to buy
  'fine', // millimetres: diameters and thickness
  'quantity', // a cord length or a count, by what the material is sold by
  'weight', // the maker's weight unit (g, oz): pieces, parcels
  'weight_per_unit', // weight of one cord unit or one piece
  'force', // breaking strength: lbf in a book of inches, newtons otherwise
  'angle', // degrees
  'minutes',
  'hours',
  'money_per_unit', // money for one cord unit or one piece
  'date', // a day, held as spreadsheets count days
] as const;

export type NumberKind = (typeof numberKinds)[number];
