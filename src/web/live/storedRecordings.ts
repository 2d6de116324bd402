/** Recordings of live passes in the browser's own file store, also of days before: listed, so that none lies there unseen. */
import { signal } from '@preact/signals';

export const RECORDINGS_FOLDER = 'recordings';

/** of a file that no pass was written to */
const HEADER_BYTES = 100;

export const storedRecordings = signal<readonly File[]>([]);

/** the browser promises not to clear them by itself; null while it was not asked */
export const isKept = signal<boolean | null>(null);

/** Asks the browser to keep recordings when its disk grows full; some ask the person. */
export async function askToKeep(): Promise<void> {
  // an older browser has none
  const store = navigator.storage as StorageManager | undefined;
  try {
    isKept.value = (await store?.persisted()) === true || (await store?.persist()) === true;
  } catch {
    isKept.value = false;
  }
}

async function folder(): Promise<FileSystemDirectoryHandle | null> {
  try {
    return await (await navigator.storage.getDirectory()).getDirectoryHandle(RECORDINGS_FOLDER);
  } catch {
    // no store, or nothing kept yet
    return null;
  }
}

export async function findRecordings(): Promise<void> {
  isKept.value ??= await navigator.storage.persisted().catch(() => false);
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
