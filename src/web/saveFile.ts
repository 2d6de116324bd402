/** Gives the person a file that was made in this page; nothing is sent anywhere. */

const KEPT_MS = 60_000;

export function saveFile(name: string, type: string, content: string | Uint8Array<ArrayBuffer>): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // the browser may still be asking where to put it
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
}
