import type { CommandWords, OptionWords, Takes } from './commandWords.ts';

const offers: Readonly<Record<Takes, (words: readonly string[]) => string>> = {
  nothing: () => ' ',
  value: () => ' ',
  words: (words) => `(${words.join(' ')})`,
  file: () => '_files',
  folder: () => '_files -/',
};

/** Completion for zsh: commands and options with what they do, folders or files where one stands. */
export function zshCompletion(commands: readonly CommandWords[], own: readonly OptionWords[]): string {
  const listed = commands.map(({ name, says }) => `    ${quoted(`${name}:${says}`)}`);
  return `#compdef sennit
# Completion of sennit for zsh. Put it into a folder of $fpath as _sennit, or load it with: source <(sennit completion zsh)
_sennit() {
  local -a commands
  commands=(
${listed.join('\n')}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
    _arguments ${own.map(argument).join(' ')}
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
${commands.map(branch).join('\n')}
  esac
}
if [ "$funcstack[1]" = _sennit ]; then _sennit "$@"; else compdef _sennit sennit; fi
`;
}

function branch(command: CommandWords): string {
  const own =
    command.argument === 'nothing' ? [] : [quoted(`1:what:${offers[command.argument](command.words)}`)];
  const lines = [...command.options.map(argument), ...own].map((each) => `      ${each}`);
  return `    ${command.name}) _arguments \\\n${lines.join(' \\\n')} ;;`;
}

function argument({ long, takes, words, says }: OptionWords): string {
  const said = says.replace(/[[\]\\:]/g, '\\$&');
  return quoted(`${long}[${said}]${takes === 'nothing' ? '' : `:value:${offers[takes](words)}`}`);
}

function quoted(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}
