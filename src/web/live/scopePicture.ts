/** What the scope draws: left against right, and beside it the peak of each channel. The canvas alone; figures are told elsewhere. */

/** px */
export const SCOPE = { figure: 280, bars: 64, height: 280 };
export const SCOPE_WIDTH = SCOPE.figure + SCOPE.bars;
const BAR = { width: 18, gap: 8, top: 6 };
const LOWEST_DB = -80;
const MARKS_DB = [0, -20, -40, -60];
/** share of the last picture that is taken away by the next */
const FADE = { short: 0.45, long: 0.06 };

export interface ScopeColours {
  readonly card: string;
  readonly rule: string;
  readonly accent: string;
  readonly soft: string;
  readonly left: string;
  readonly right: string;
}

/** Read once for a picture that is opened, and when the theme changes: asking the style costs more than a line. */
export function scopeColours(): ScopeColours {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string): string => style.getPropertyValue(name);
  return {
    card: of('--card'),
    rule: of('--rule'),
    accent: of('--accent'),
    soft: of('--soft'),
    left: of('--left'),
    right: of('--right'),
  };
}

function drawFigure(
  context: CanvasRenderingContext2D,
  points: Float32Array,
  peak: number,
  colours: ScopeColours,
): void {
  const size = SCOPE.figure;
  context.strokeStyle = colours.rule;
  context.lineWidth = 1;
  context.beginPath();
  for (const [x, y] of [
    [1, 0],
    [0, 1],
    [Math.SQRT1_2, Math.SQRT1_2],
    [Math.SQRT1_2, -Math.SQRT1_2],
  ]) {
    context.moveTo((size / 2) * (1 - x), (size / 2) * (1 - y));
    context.lineTo((size / 2) * (1 + x), (size / 2) * (1 + y));
  }
  context.stroke();
  const scale = (0.46 * size) / (Math.max(peak, 1e-4) * Math.SQRT2);
  context.strokeStyle = colours.accent;
  context.beginPath();
  for (let i = 0; i < points.length; i += 2) {
    const x = size / 2 + scale * (points[i] + points[i + 1]);
    const y = size / 2 - scale * (points[i + 1] - points[i]);
    if (i === 0) context.moveTo(x, y);
    else context.lineTo(x, y);
  }
  context.stroke();
}

const shareOf = (db: number): number => 1 - Math.max(LOWEST_DB, Math.min(0, db)) / LOWEST_DB;

/** Left is filled, right is striped: colour is not the only sign. */
function drawBars(context: CanvasRenderingContext2D, db: ScopePeaks, colours: ScopeColours): void {
  const { figure, bars, height } = SCOPE;
  const inner = height - 2 * BAR.top;
  context.fillStyle = colours.card;
  context.fillRect(figure, 0, bars, height);
  context.fillStyle = colours.rule;
  for (const mark of MARKS_DB) context.fillRect(figure, BAR.top + inner * (1 - shareOf(mark)), bars, 1);
  for (const [i, name] of (['left', 'right'] as const).entries()) {
    const x = figure + BAR.gap + i * (BAR.width + BAR.gap);
    const tall = inner * shareOf(db[name]);
    context.fillStyle = colours[name];
    context.fillRect(x, BAR.top + inner - tall, BAR.width, tall);
    context.fillStyle = colours.card;
    if (name === 'right') for (let y = 6; y < tall; y += 8) context.fillRect(x, BAR.top + inner - y, BAR.width, 2);
  }
}

/** dBFS of what is drawn; −200 for none */
export interface ScopePeaks {
  readonly left: number;
  readonly right: number;
}

const db = (peak: number): number => (peak > 0 ? Math.max(-200, 20 * Math.log10(peak)) : -200);

/** @param points left and right in turn @param lingers what was drawn before fades slowly */
export function drawScope(
  context: CanvasRenderingContext2D,
  points: Float32Array,
  lingers: boolean,
  colours: ScopeColours,
): ScopePeaks {
  let [left, right] = [0, 0];
  for (let i = 0; i < points.length; i += 2) {
    left = Math.max(left, Math.abs(points[i]));
    right = Math.max(right, Math.abs(points[i + 1]));
  }
  context.globalAlpha = lingers ? FADE.long : FADE.short;
  context.fillStyle = colours.card;
  context.fillRect(0, 0, SCOPE.figure, SCOPE.height);
  context.globalAlpha = 1;
  drawFigure(context, points, Math.max(left, right), colours);
  const peaks = { left: db(left), right: db(right) };
  drawBars(context, peaks, colours);
  return peaks;
}
