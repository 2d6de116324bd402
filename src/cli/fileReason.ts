/** Why a file could not be read or written, in words instead of a system's code. */

const READING: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'its rights forbid it',
  EPERM: 'its rights forbid it',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of its path is no folder',
  ELOOP: 'its links go round in a circle',
  ENAMETOOLONG: 'its name is too long',
  EMFILE: 'too many files are open',
  EIO: 'the disk does not answer',
  ENOTFILE: 'it is a pipe or a device, not a file',
};

const WRITING: Readonly<Record<string, string>> = {
  ...READING,
  ENOENT: 'there is no such folder',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  EROFS: 'the disk can only be read',
  EBUSY: 'another program holds it',
};

const inWords = (words: Readonly<Record<string, string>>, error: unknown): string => {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code !== undefined && Object.hasOwn(words, code)) return words[code];
  return String(code ?? message ?? error).split('\n')[0];
};

/** "there is no such file" */
export const whyUnread = (error: unknown): string => inWords(READING, error);
/** "the disk is full" */
export const whyUnwritten = (error: unknown): string => inWords(WRITING, error);
