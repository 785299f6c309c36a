import type { CommandWords, OptionWords, Takes } from './commandWords.ts';

const offers: Readonly<Record<Takes, (words: readonly string[]) => string>> = {
  nothing: () => 'COMPREPLY=()',
  value: () => 'COMPREPLY=()',
  words: (words) => `_sennit_words '${words.join(' ')}'`,
  file: () => '_sennit_names -f',
  folder: () => '_sennit_names -d',
};

/** Completion for bash 3.2 and newer: commands, options, and folders or files where one stands. */
export function bashCompletion(commands: readonly CommandWords[], own: readonly OptionWords[]): string {
  const names = [...commands.map(({ name }) => name), ...flagsOf(own)];
  return `# Completion of sennit for bash. Load it with: source <(sennit completion bash)
_sennit_words() { COMPREPLY=($(compgen -W "$1" -- "$word")); }
_sennit_names() {
  local IFS=$'\\n'
  COMPREPLY=($(compgen "$1" -- "$word"))
  compopt -o filenames 2>/dev/null
}
_sennit() {
  local word="\${COMP_WORDS[COMP_CWORD]}" before="\${COMP_WORDS[COMP_CWORD-1]}" command='' at
  COMPREPLY=()
  for ((at = 1; at < COMP_CWORD; at++)); do
    case "\${COMP_WORDS[at]}" in
      -*) ;;
      *) command="\${COMP_WORDS[at]}"; break ;;
    esac
  done
  case "$command" in
    '') _sennit_words '${names.join(' ')}' ;;
${commands.map(branch).join('\n')}
  esac
  return 0
}
complete -F _sennit sennit
`;
}

function branch({ name, options, argument, words }: CommandWords): string {
  const behind = options
    .filter(({ takes }) => takes !== 'nothing')
    .map((each) => `        ${each.long}) ${offers[each.takes](each.words)} ; return 0 ;;`);
  const cases = behind.length === 0 ? [] : ['      case "$before" in', ...behind, '      esac'];
  return [
    `    ${name})`,
    ...cases,
    `      case "$word" in`,
    `        -*) _sennit_words '${flagsOf(options).join(' ')}' ;;`,
    `        *) ${offers[argument](words)} ;;`,
    '      esac ;;',
  ].join('\n');
}

function flagsOf(options: readonly OptionWords[]): readonly string[] {
  return options.map(({ long }) => long);
}
