// Loaded before the program (`node --import 'killAt.mjs?at=5'`): ends the process by SIGKILL at its operation number
// `at` that changes anything on the disk.
import { createRequire, syncBuiltinESMExports } from 'node:module';

const at = Number(new URL(import.meta.url).searchParams.get('at'));
const files = createRequire(import.meta.url)('node:fs');
let count = 0;
for (const name of [
  'openSync',
  'writeFileSync',
  'fsyncSync',
  'fchmodSync',
  'closeSync',
  'renameSync',
  'mkdirSync',
  'mkdtempSync',
  'rmSync',
  'rmdirSync',
]) {
  const real = files[name];
  files[name] = (...args) => {
    if (name === 'openSync' && (args[1] === 'r' || args[1] === undefined)) return real(...args);
    count += 1;
    if (count === at) process.kill(process.pid, 'SIGKILL');
    return real(...args);
  };
}
syncBuiltinESMExports();
