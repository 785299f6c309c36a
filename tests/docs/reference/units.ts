import { fieldUnits } from './fieldUnits.ts';

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
  [/^(layeredP|p)itchRatio$/, 'cord diameters'],
  [/Ratio$/, 'share'],
  [/Degrees$/, 'degrees'],
];

const said = new Map(
  Object.entries(fieldUnits).flatMap(([type, units]) =>
    units.flatMap(([unit, fields]) => fields.split(' ').map((field) => [`${type}.${field}`, unit] as const)),
  ),
);

/**
 * The unit of a number that a command prints.
 *
 * @throws where none is known: a new field says its unit in its name, or in fieldUnits.ts
 */
export function unitOf(type: string, path: string): string {
  const name = path.split('.').at(-1) ?? '';
  const unit = said.get(`${type}.${path}`) ?? byEnding.find(([ending]) => ending.test(name))?.[1];
  if (unit === undefined)
    throw new Error(`${type}.${path} has no unit: say it in tests/docs/reference/fieldUnits.ts`);
  return unit;
}

/** Fields that are told apart, for a test that none of them is gone. */
export const fieldsWithUnits: readonly string[] = [...said.keys()];

/** Whether a field that holds numbers deeper inside has a unit of its own. */
export const hasUnit = (type: string, path: string): boolean => said.has(`${type}.${path}`);
