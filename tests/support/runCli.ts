import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ExitCode, Io } from '../../cli/io.ts';
import { run } from '../../cli/program.ts';

export interface CliResult {
  readonly exitCode: ExitCode;
  readonly out: string;
  readonly err: string;
}

/** Runs the program in-process with its own streams; `io` replaces what a test wants different. */
export async function runCli(args: readonly string[], io: Partial<Io> = {}): Promise<CliResult> {
  let out = '';
  let err = '';
  const exitCode = await run(args, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    env: {},
    now: () => new Date('2026-11-25T12:00:00Z'),
    folder: process.cwd(),
    ...io,
  });
  return { exitCode, out, err };
}

/** A fresh folder for one test; gone afterwards. */
export async function inFreshFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'sennit-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
