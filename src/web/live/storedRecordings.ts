/** Recordings of live passes in the browser's own file store, also of days before: listed, so that none lies there unseen. */
import { signal } from '@preact/signals';

export const RECORDINGS_FOLDER = 'recordings';

/** of a file that no pass was written to */
const HEADER_BYTES = 100;

export const storedRecordings = signal<readonly File[]>([]);

async function folder(): Promise<FileSystemDirectoryHandle | null> {
  try {
    return await (await navigator.storage.getDirectory()).getDirectoryHandle(RECORDINGS_FOLDER);
  } catch {
    // no store, or nothing kept yet
    return null;
  }
}

export async function findRecordings(): Promise<void> {
  const here = await folder();
  if (here === null) return;
  const files: File[] = [];
  for await (const handle of (here as unknown as { values(): AsyncIterable<FileSystemHandle> }).values()) {
    if (handle.kind !== 'file') continue;
    const file = await (handle as FileSystemFileHandle).getFile();
    if (file.size > HEADER_BYTES) files.push(file);
  }
  storedRecordings.value = files.sort((a, b) => b.lastModified - a.lastModified);
}

export async function deleteRecording(name: string): Promise<void> {
  await (await folder())?.removeEntry(name);
  await findRecordings();
}
