/**
 * A photograph as it is kept: upright, small, drawn anew. Drawing leaves out everything that a camera writes beside the
 * pixels, its place among them; the store strips once more.
 */

import { MOST_JPEG_BYTES, MOST_SIDE_PX } from '../../core/job/photographs.ts';
import { say, statement } from '../../core/words/statement.ts';

const QUALITIES = [0.85, 0.7, 0.5] as const;
/** a file that no camera writes */
const LARGEST_FILE = 80_000_000;

/** @returns base64 of the JPEG @throws Error with one sentence */
export async function scaleDown(file: Blob, name: string): Promise<string> {
  if (file.size > LARGEST_FILE) throw new Error(say(statement('photograph-too-large', { name })));
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new Error(say(statement('photograph-unreadable', { name })));
  }
  const scale = Math.min(1, MOST_SIDE_PX / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const context = canvas.getContext('2d');
  if (context === null) throw new Error(say(statement('draws-no-pictures')));
  // what is see-through would come out black
  context.fillStyle = '#fff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  for (const quality of QUALITIES) {
    const jpeg = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
    if (jpeg !== null && jpeg.size <= MOST_JPEG_BYTES) return base64Of(jpeg);
  }
  throw new Error(say(statement('photograph-not-small', { name })));
}

function base64Of(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^[^,]*,/, ''));
    reader.onerror = () => reject(new Error(say(statement('picture-unreadable'))));
    reader.readAsDataURL(blob);
  });
}
