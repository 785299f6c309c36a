#!/usr/bin/env node
import type { Io } from './io.ts';
import { run } from './program.ts';

// A pipe that closes early (`sennit price book | head -1`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

/** Without an answer (the end of the input) it is an empty one. */
async function ask(question: string): Promise<string> {
  const { createInterface } = await import('node:readline');
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return await new Promise((resolve) => {
      lines.once('close', () => resolve(''));
      lines.question(question, resolve);
    });
  } finally {
    lines.close();
  }
}

/** Where the command was given. `npm run` goes to the top of the clone first, and says where it was called. */
function startedIn(): string {
  const { npm_lifecycle_event: script, INIT_CWD: called } = process.env;
  return script === 'sennit' && called !== undefined && called !== '' ? called : process.cwd();
}

const io: Io = {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  ...(process.stdout.isTTY ? { columns: process.stdout.columns } : {}),
  env: process.env,
  now: () => new Date(),
  folder: startedIn(),
  ...(process.stderr.isTTY
    ? {
        progress: (text: string) =>
          process.stderr.write(`\r\u001b[K${text.slice(0, (process.stderr.columns ?? 80) - 1)}`),
      }
    : {}),
  ...(process.stdin.isTTY && process.stderr.isTTY ? { ask } : {}),
  onInterrupt: (stop) => {
    process.once('SIGINT', stop);
    return () => process.off('SIGINT', stop);
  },
};

try {
  process.exitCode = await run(process.argv.slice(2), io);
} catch (error) {
  const shown = process.env.SENNIT_DEBUG && error instanceof Error ? error.stack : String(error);
  io.err(
    `This is a fault of Sennit, not of your book: ${shown}\nSet SENNIT_DEBUG=1 to see where it arose, and report it with the book that shows it.\n`,
  );
  process.exitCode = 3;
}
