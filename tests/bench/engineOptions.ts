/** Options of the bare calculation engine: those that bear on its speed are as the reference engine has them. */
export const engineOptions: {
  readonly licenseKey: string;
  readonly smartRounding: boolean;
  readonly useArrayArithmetic: boolean;
  readonly maxRows: number;
  readonly maxColumns: number;
} = {
  licenseKey: 'gpl-v3',
  smartRounding: false,
  useArrayArithmetic: true,
  maxRows: 2_000_000,
  maxColumns: 1_000,
};
