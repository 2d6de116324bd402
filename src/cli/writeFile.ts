/** Writing a file all or not at all: a reader never sees half of it. */
import { rename, rm, writeFile } from 'node:fs/promises';
import { UsageError } from './command.ts';
import { whyUnwritten } from './fileReason.ts';

/** @throws UsageError naming the flag and the file when it cannot be written; what stood there before is then unharmed */
export async function writeWholeFile(flag: string, file: string, text: string): Promise<void> {
  const part = `${file}.part-${process.pid}`;
  try {
    await writeFile(part, text, { flag: 'wx' });
    await rename(part, file);
  } catch (error) {
    await rm(part, { force: true });
    throw new UsageError(`${flag} ${file}: cannot be written (${whyUnwritten(error)})`);
  }
}
