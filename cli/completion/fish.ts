import type { CommandWords, OptionWords, Takes } from './commandWords.ts';

const offers: Readonly<Record<Takes, (words: readonly string[]) => string>> = {
  nothing: () => '-f',
  value: () => '-x',
  words: (words) => `-x -a ${quoted(words.join(' '))}`,
  file: () => '-r -F',
  folder: () => `-x -a '(__fish_complete_directories)'`,
};

/** Completion for fish: commands and options with what they do, folders or files where one stands. */
export function fishCompletion(commands: readonly CommandWords[], own: readonly OptionWords[]): string {
  const lines = [
    '# Completion of sennit for fish. Write it to ~/.config/fish/completions/sennit.fish',
    'complete -c sennit -f',
    ...own.map((each) => optionLine('__fish_use_subcommand', each)),
    ...commands.flatMap((command) => {
      const here = `__fish_seen_subcommand_from ${command.name}`;
      return [
        `complete -c sennit -n __fish_use_subcommand -a ${command.name} -d ${quoted(command.says)}`,
        ...command.options.map((each) => optionLine(here, each)),
        ...(command.argument === 'nothing' || command.argument === 'value'
          ? []
          : [
              `complete -c sennit -n '${here}' ${offers[command.argument](command.words).replace(/^-r /, '')}`,
            ]),
      ];
    }),
  ];
  return `${lines.join('\n')}\n`;
}

function optionLine(when: string, { long, short, takes, words, says }: OptionWords): string {
  const letter = short === undefined ? '' : ` -s ${short.slice(1)}`;
  return `complete -c sennit -n '${when}'${letter} -l ${long.slice(2)} ${offers[takes](words)} -d ${quoted(says)}`;
}

function quoted(text: string): string {
  return `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
}
