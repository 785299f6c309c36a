import type { Argument, Command, Option } from 'commander';
import { programOf } from '../../../cli/program.ts';
import { anchor, code, markdownTable } from './markdown.ts';

const program = programOf(
  { out: () => {}, err: () => {}, env: {}, now: () => new Date(0), folder: '.' },
  { exitCode: 0 },
);

function defaultText({ defaultValue, defaultValueDescription, description }: Option): string {
  if (defaultValueDescription !== undefined) return defaultValueDescription;
  if (defaultValue === undefined || (Array.isArray(defaultValue) && defaultValue.length === 0))
    return /\(default: ([^)]*)\)/.exec(description)?.[1] ?? '';
  return String(defaultValue);
}

const argumentText = (argument: Argument): string => {
  const name = `${argument.name()}${argument.variadic ? '...' : ''}`;
  return argument.required ? `<${name}>` : `[${name}]`;
};

/** What stands under a command's options when it is asked for help. */
function afterHelp(command: Command): string {
  let text = '';
  command.configureOutput({
    writeOut: (part) => {
      text += part;
    },
  });
  command.outputHelp();
  return text.slice(command.helpInformation().length).trim();
}

/** Lines that begin with a stroke of the prompt stand as program text. */
function paragraphs(text: string): string {
  return text
    .split('\n')
    .map((line) =>
      line.startsWith('  ') ? `    ${line.trim().replace(/^\$ /, '')}` : line.replace(/<(\w+)>/g, '`<$1>`'),
    )
    .join('\n')
    .replace(/([^\n])\n( {4})/g, (_, end: string, start: string) => `${end}\n${start}`)
    .replace(/^(\S.*)\n( {4})/gm, '$1\n\n$2');
}

function section(command: Command): string {
  const rows = [
    ...command.registeredArguments.map((each) => [
      code(argumentText(each)),
      each.description,
      each.required ? '**needed**' : '',
    ]),
    ...command.options.map((each) => [
      code(each.flags),
      each.description.replace(/\s*\(default: [^)]*\)/, ''),
      defaultText(each),
    ]),
  ];
  const usage = [
    'sennit',
    command.name(),
    ...command.registeredArguments.map(argumentText),
    '[options]',
  ].join(' ');
  return [
    `### ${command.name()}`,
    `\`${usage}\`: ${command.description()}.`,
    markdownTable(['argument or option', 'means', 'default'], rows),
    paragraphs(afterHelp(command)),
  ].join('\n\n');
}

/** The inside of docs/reference/commands.md. */
export function commandsReference(): string {
  const groups = new Map<string, Command[]>();
  for (const command of program.commands) {
    const heading = command.helpGroup().replace(/:$/, '');
    groups.set(heading, [...(groups.get(heading) ?? []), command]);
  }
  const links = (commands: readonly Command[]): string =>
    commands.map((each) => `[${each.name()}](${anchor(each.name())})`).join(', ');
  return [
    ...[...groups].map(([heading, commands]) => `${heading}: ${links(commands)}.`),
    ...[...groups].flatMap(([heading, commands]) => [`## ${heading}`, ...commands.map(section)]),
  ].join('\n\n');
}
