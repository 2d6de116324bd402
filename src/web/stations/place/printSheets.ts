/** Prints drawings at their true size: a page of its own for each, without margins, in a frame beside the view. */
import type { Scale } from '../../../core/draw/outline.ts';
import type { Drawing } from '../../../core/draw/shape.ts';
import { toSvg } from '../../../core/draw/svg.ts';

const KEPT_MS = 600_000;

function printPage(drawings: readonly Drawing[], scale: Scale): string {
  const [{ title, width, height }] = drawings;
  const style = `@page{size:${width}mm ${height}mm;margin:0}html,body{margin:0;background:#fff}svg{display:block;width:${width}mm;height:${height}mm;break-after:page;break-inside:avoid}svg:last-child{break-after:auto}`;
  const pages = drawings.map((drawing) => toSvg(drawing, scale)).join('');
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>${title}</title><style>${style}</style></head><body>${pages}</body></html>`;
}

export function printSheets(drawings: readonly Drawing[], scale: Scale): void {
  const address = URL.createObjectURL(new Blob([printPage(drawings, scale)], { type: 'text/html' }));
  const frame = document.createElement('iframe');
  frame.title = 'Template to print';
  frame.tabIndex = -1;
  frame.setAttribute('aria-hidden', 'true');
  frame.className = 'print-frame';
  const away = (): void => {
    frame.remove();
    URL.revokeObjectURL(address);
  };
  frame.addEventListener('load', () => {
    const view = frame.contentWindow;
    if (view === null) return;
    view.addEventListener('afterprint', () => setTimeout(away, 0));
    view.focus();
    view.print();
  });
  frame.src = address;
  document.body.append(frame);
  setTimeout(away, KEPT_MS);
}
