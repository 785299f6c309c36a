import { Hindrance } from './io.ts';

const causes: Readonly<Record<string, string>> = {
  EACCES: 'you may not write there',
  EPERM: 'you may not write there',
  EROFS: 'that place cannot be written to',
  ENOSPC: 'the disk is full',
  ENOENT: 'there is no such folder',
  ENOTDIR: 'a part of that path is a file',
  EISDIR: 'there is a folder of that name',
  EBUSY: 'another program has it open',
  ENAMETOOLONG: 'the name is too long',
};

/** Does something with files; what the system refuses becomes a hindrance told in words. */
export function hindered<T>(what: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === undefined) throw error;
    throw new Hindrance(`${what}: ${causes[code] ?? code}.`);
  }
}
