import { anchor, code, markdownTable } from './markdown.ts';
import { type PrintedField, type PrintedType, printedTypes } from './printedTypes.ts';
import { hasUnit, unitOf } from './units.ts';

/** What stands for a whole answer where a book has errors. */
const isRefusal = ({ fields }: PrintedType): boolean => fields.length === 1 && fields[0]?.path === 'problems';

function typeText({ type, names, optional }: PrintedField): string {
  const linked = names.reduce((text, name) => text.replace(name, `[${name}](${anchor(name)})`), type);
  return optional ? `${linked}, may be missing` : linked;
}

function fieldTable({ fields }: PrintedType, owner: string): string {
  return markdownTable(
    ['field', 'type', 'unit', 'meaning'],
    fields.map((field) => [
      code(field.path),
      typeText(field),
      field.isNumber || hasUnit(owner, field.path) ? unitOf(owner, field.path) : '',
      field.meaning,
    ]),
  );
}

function typeSection(type: PrintedType): string {
  return [`### ${type.name}`, type.meaning, fieldTable(type, type.name)]
    .filter((each) => each !== '')
    .join('\n\n');
}

/** Every command's answer, and every type that answers are made of: the inside of docs/reference/json.md. */
export function jsonReference(): string {
  const { commands, types } = printedTypes();
  const answers = [...commands].flatMap(([command, given]) => {
    const kept = given.filter((each) => !isRefusal(each));
    if (kept.length === 0) return [];
    const parts = kept.map((each) =>
      each.name === '' ? fieldTable(each, command) : `A [${each.name}](${anchor(each.name)}).`,
    );
    return [`### ${code(`sennit ${command} --json`)}\n\n${parts.join('\n\nor\n\n')}`];
  });
  const sorted = [...types.values()].sort((one, other) => (one.name < other.name ? -1 : 1));
  return ['## Answers by command', ...answers.sort(), '## Types', ...sorted.map(typeSection)].join('\n\n');
}
