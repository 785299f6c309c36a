import { Hindrance } from './io.ts';

const ofReading: Readonly<Record<string, string>> = {
  EACCES: 'you may not read it',
  EPERM: 'you may not read it',
  ENOENT: 'what it stands for is not there',
  ENOTDIR: 'it is a file, not a folder',
  EISDIR: 'it is a folder, not a file',
  ELOOP: 'it is a link that leads back to itself',
  EBUSY: 'another program has it open',
  ENAMETOOLONG: 'the name is too long',
  EIO: 'the disk reports a fault',
};

const ofWriting: Readonly<Record<string, string>> = {
  EACCES: 'you may not write there',
  EPERM: 'you may not write there',
  EROFS: 'that place cannot be written to',
  ENOSPC: 'the disk is full',
  ENOENT: 'there is no such folder',
  EEXIST: 'a part of that path is a file',
  ENOTDIR: 'a part of that path is a file',
  EISDIR: 'there is a folder of that name',
  ELOOP: 'a part of that path is a link that leads back to itself',
  EBUSY: 'another program has it open',
  ENAMETOOLONG: 'the name is too long',
  EDQUOT: 'your share of the disk is full',
  EFBIG: 'files may not grow so large there',
  EIO: 'the disk reports a fault',
};

/** Reads something; what the system refuses becomes a hindrance told in words. */
export function reading<T>(name: string, work: () => T): T {
  return hindered(`${name} could not be read`, ofReading, work);
}

/** Writes something; what the system refuses becomes a hindrance told in words. */
export function writing<T>(name: string, work: () => T): T {
  return hindered(`${name} could not be written`, ofWriting, work);
}

function hindered<T>(what: string, causes: Readonly<Record<string, string>>, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === undefined) throw error;
    throw new Hindrance(`${what}: ${causes[code] ?? code}.`);
  }
}
