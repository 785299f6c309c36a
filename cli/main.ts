#!/usr/bin/env node
import { run } from './program.ts';

// A pipe that closes early (`sennit price book | head -1`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  ...(process.stdout.isTTY ? { columns: process.stdout.columns } : {}),
  env: process.env,
  now: () => new Date(),
  folder: process.cwd(),
});
