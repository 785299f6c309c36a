import { Argument, type Command } from 'commander';
import { bashCompletion } from '../completion/bash.ts';
import { commandWords, programOptions } from '../completion/commandWords.ts';
import { fishCompletion } from '../completion/fish.ts';
import { zshCompletion } from '../completion/zsh.ts';
import type { Io } from '../io.ts';

const shells = { bash: bashCompletion, zsh: zshCompletion, fish: fishCompletion } as const;

export function addCompletion(program: Command, io: Io): void {
  program
    .command('completion')
    .addArgument(new Argument('<shell>', 'the shell').choices(Object.keys(shells)))
    .description('print what makes a shell complete commands, options and folders by the tab key')
    .addHelpText(
      'after',
      `
Examples:
  $ source <(sennit completion bash)
  $ sennit completion zsh > ~/.zfunc/_sennit
  $ sennit completion fish > ~/.config/fish/completions/sennit.fish

Put the first into ~/.bashrc. For zsh, the folder has to be one of $fpath.`,
    )
    .action((shell: keyof typeof shells) => {
      io.out(shells[shell](commandWords(program), programOptions(program)));
    });
}
