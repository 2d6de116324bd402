/** A chart as it is shown, as a file: SVG, PNG, or its values as CSV. Nothing is sent anywhere. */
import { chartCsv } from '../../core/draw/chart/csv.ts';
import type { Chart } from '../../core/draw/chart/curves.ts';
import { saveFile } from '../saveFile.ts';

/** what the page's style sheet gives a chart, written into the drawing so that it stands alone */
const STYLES = [
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'font-family',
  'font-size',
  'font-weight',
];
/** pixels of the PNG for one of the page */
const SCALE = 2;

/** "speed-over-time", from a title. */
const fileStem = (title: string): string =>
  title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');

export const saveCsv = (chart: Chart): void => saveFile(`${fileStem(chart.title)}.csv`, 'text/csv', chartCsv(chart));

export const saveSvg = (chart: Chart, shown: SVGSVGElement): void =>
  saveFile(`${fileStem(chart.title)}.svg`, 'image/svg+xml', standalone(chart, shown).text);

/** @throws Error where the browser cannot draw it */
export async function savePng(chart: Chart, shown: SVGSVGElement): Promise<void> {
  const { text, width, height } = standalone(chart, shown);
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = SCALE * width;
  canvas.height = SCALE * height;
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (blob === null) throw new Error('the picture could not be drawn');
  saveFile(`${fileStem(chart.title)}.png`, 'image/png', new Uint8Array(await blob.arrayBuffer()));
}

function standalone(chart: Chart, shown: SVGSVGElement): { text: string; width: number; height: number } {
  const { width, height } = shown.viewBox.baseVal;
  const copy = shown.cloneNode(true) as SVGSVGElement;
  const from = [...shown.querySelectorAll('*')];
  [...copy.querySelectorAll('*')].forEach((element, i) => {
    const style = getComputedStyle(from[i]);
    for (const name of STYLES) element.setAttribute(name, style.getPropertyValue(name));
    element.removeAttribute('class');
  });
  copy.removeAttribute('aria-hidden');
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('width', String(width));
  copy.setAttribute('height', String(height));
  const page = getComputedStyle(document.body);
  const add = (name: string, attributes: Record<string, string>, text = ''): SVGElement => {
    const element = document.createElementNS('http://www.w3.org/2000/svg', name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    element.textContent = text;
    return element;
  };
  copy.prepend(
    add('title', {}, chart.title),
    add('rect', { width: '100%', height: '100%', fill: page.backgroundColor }),
  );
  const dashed = { left: ' (solid)', right: ' (dashed)' } as const;
  const legend = chart.series
    .map(({ name, style }) => `${name}${style === 'left' || style === 'right' ? dashed[style] : ''}`)
    .join(', ');
  copy.append(
    add(
      'text',
      {
        x: String(width - 14),
        y: '12',
        'text-anchor': 'end',
        fill: page.color,
        'font-family': 'sans-serif',
        'font-size': '12',
      },
      `${chart.title}: ${legend}`,
    ),
  );
  return { text: new XMLSerializer().serializeToString(copy), width, height };
}
