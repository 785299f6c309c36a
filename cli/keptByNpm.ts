import type { Command } from 'commander';
import type { Io } from './io.ts';

/** Options that npm knows itself: a setting of the reader's own looks the same as one that it kept. */
const ofNpm = ['all', 'dry-run', 'json', 'yes'];

/**
 * An option that never arrived: without -- after the name of the script, `npm run` keeps options for itself, and what
 * is left would do something else, or nothing that was asked for. It passes them on as settings in the environment.
 */
export function keptByNpm(program: Command, args: readonly string[], { env }: Io): string | undefined {
  if (env.npm_lifecycle_event !== 'sennit') return undefined;
  const command = program.commands.find((each) => each.name() === args[0]);
  const names = (command?.options ?? []).flatMap(({ long }) => long?.replace(/^--(?:no-)?/, '') ?? []);
  return names.find(
    (name) =>
      !ofNpm.includes(name) &&
      (env[`npm_config_${name.replaceAll('-', '_')}`] ?? '') !== '' &&
      !args.some((each) => each.split('=')[0] === `--${name}`),
  );
}
