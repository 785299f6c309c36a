import type { Argument, Command, Option } from 'commander';

/** What stands behind an option or as an argument, as far as a shell can help with it. */
export type Takes = 'nothing' | 'file' | 'folder' | 'words' | 'value';

export interface OptionWords {
  readonly long: string;
  readonly short?: string;
  readonly takes: Takes;
  /** What can stand behind it, where only these can. */
  readonly words: readonly string[];
  readonly says: string;
}

export interface CommandWords {
  readonly name: string;
  readonly says: string;
  readonly options: readonly OptionWords[];
  readonly argument: Takes;
  readonly words: readonly string[];
}

/** Every command with its options, as commander knows them; hidden ones stay hidden. */
export function commandWords(program: Command): readonly CommandWords[] {
  const help = program.createHelp();
  const names = program.commands.map((each) => each.name());
  return help.visibleCommands(program).map((command) => {
    const first = command.registeredArguments[0];
    const isHelp = command.name() === 'help';
    return {
      name: command.name(),
      says: command.description(),
      options: help.visibleOptions(command).map(optionWords),
      argument: isHelp ? 'words' : first === undefined ? 'nothing' : takenBy(first.name(), first),
      words: isHelp ? names : (first?.argChoices ?? []),
    };
  });
}

/** The program's own options, before any command. */
export function programOptions(program: Command): readonly OptionWords[] {
  return program.createHelp().visibleOptions(program).map(optionWords);
}

function optionWords(option: Option): OptionWords {
  const named = /[<[]([^>\]]+)/.exec(option.flags)?.[1];
  return {
    long: option.long ?? option.flags,
    ...(option.short === undefined ? {} : { short: option.short }),
    takes: named === undefined ? 'nothing' : takenBy(named, option),
    words: option.argChoices ?? [],
    says: option.description,
  };
}

function takenBy(name: string, { argChoices }: Pick<Argument | Option, 'argChoices'>): Takes {
  if (argChoices !== undefined) return 'words';
  if (name === 'book' || name === 'folder') return 'folder';
  return name === 'file' || name === 'workbook' ? 'file' : 'value';
}
