import type { Command } from 'commander';
import { exitCodes } from './manual.ts';

/** The manual page of the whole program, in the roff of man(7). */
export function manPage(program: Command): string {
  const help = program.createHelp();
  const commands = help.visibleCommands(program).filter((each) => each.name() !== 'help');
  return `${[
    '.\\" Made from the commands themselves: npm run golden:refresh.',
    '.TH SENNIT 1 "" "Sennit" "User commands"',
    '.SH NAME',
    'sennit \\- cost and price knotted\\-cord goods',
    '.SH SYNOPSIS',
    '.B sennit',
    '.I command',
    '[options]',
    '.SH DESCRIPTION',
    plain(program.description()),
    '.PP',
    'A book is a folder of plain tables: what you buy, what you weave, what you sell and where.',
    '.B sennit help',
    '.I command',
    'shows examples and what each figure means.',
    '.SH COMMANDS',
    ...commands.flatMap((command) => [
      '.SS',
      plain(`sennit ${command.name()} ${command.usage()}`),
      plain(sentence(command.description())),
      ...help
        .visibleOptions(command)
        .flatMap((option) => [
          '.TP',
          `.B ${plain(option.flags)}`,
          plain(sentence(help.optionDescription(option))),
        ]),
    ]),
    '.SH EXIT STATUS',
    ...exitCodes.flatMap(([code, means]) => ['.TP', `.B ${code}`, plain(sentence(means))]),
    '.SH ENVIRONMENT',
    '.TP',
    '.B NO_COLOR',
    'No colours.',
    '.TP',
    '.B SOURCE_DATE_EPOCH',
    'The moment, in seconds since 1970, that stands in for today, so that a file can be made again byte for byte.',
    '.TP',
    '.B SENNIT_DEBUG',
    'Shows where a fault of Sennit arose.',
    '.SH FILES',
    'Nothing is kept outside the book and the files that you name.',
  ].join('\n')}\n`;
}

const spelled: Readonly<Record<string, string>> = {
  '\\': '\\e',
  '-': '\\-',
  '’': '\\(cq',
  '‘': '\\(oq',
  '“': '\\(lq',
  '”': '\\(rq',
};

/** Safe in roff: plain ASCII, backslashes and hyphens as they are, no line that begins like a request. */
function plain(text: string): string {
  const escaped = text.replace(/[\\\-‘’“”]/g, (letter) => spelled[letter] ?? letter);
  return /^[.']/.test(escaped) ? `\\&${escaped}` : escaped;
}

function sentence(text: string): string {
  const whole = `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
  return whole.endsWith('.') ? whole : `${whole}.`;
}
