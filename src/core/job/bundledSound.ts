/** The sound in a bundle that was imported, each recording under the name that its job knows it by. */
import { strFromU8 } from 'fflate';
import { z } from 'zod';
import { bundleBounds } from './bundle.ts';
import { readZip } from './zip.ts';

export interface BundledSound {
  /** as the job has it, else the beginning of its fingerprint; never a path */
  readonly name: string;
  readonly bytes: Uint8Array;
}

const named = z.object({
  captures: z.array(
    z.object({ document: z.object({ capture: z.object({ file: z.string(), sha256: z.string().nullish() }) }) }),
  ),
});

/** @param bundle as it was imported: its list and fingerprints were looked at then; empty for what is no bundle */
export function soundIn(bundle: Uint8Array): readonly BundledSound[] {
  const zip = readZip(bundle, bundleBounds);
  if (!zip.found) return [];
  const files = [...zip.files];
  const names = new Map(
    files
      .filter(([path]) => path.startsWith('jobs/'))
      .flatMap(([, content]) => named.safeParse(JSON.parse(strFromU8(content))).data?.captures ?? [])
      .map(({ document: { capture } }) => [capture.sha256, capture.file.replace(/^.*[\\/]/, '')]),
  );
  return files.flatMap(([path, bytes]) => {
    const [, sha256, ending] = /^recordings\/([0-9a-f]{64})\.(wav|flac)$/.exec(path) ?? [];
    return sha256 === undefined ? [] : [{ name: names.get(sha256) ?? `${sha256.slice(0, 16)}.${ending}`, bytes }];
  });
}
