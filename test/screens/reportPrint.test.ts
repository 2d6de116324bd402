/**
 * The reports as they come out of a printer: printed by a real browser on A4 and on Letter, their pages counted, their text
 * read back by pdftotext, no row of a table cut by the end of a page.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SideDocument } from '../../src/core/advise/document.ts';
import { type AdviceEntry, apiPaths } from '../../src/core/job/api.ts';
import type { Audience } from '../../src/core/job/audience.ts';
import { axeFaults } from './axeFaults.ts';
import { type Bench, openBench, platterside } from './bench.ts';
import { settled, soon } from './settled.ts';

const formats = ['A4', 'Letter'] as const;
type Format = (typeof formats)[number];

const logo = `data:image/svg+xml;base64,${Buffer.from(
  '<svg xmlns="http://www.w3.org/2000/svg" width="80" height="80"><circle cx="40" cy="40" r="36" fill="teal"/></svg>',
).toString('base64')}`;

let bench: Bench;
/** a house side of the practice deck, measured by the product's own command */
let side: SideDocument;
let twenty = '';

/** Fingerprints tell the recordings apart; figures and curves are the measured ones. */
const again = (nth: number): SideDocument => ({
  ...side,
  capture: { ...side.capture, file: `pass ${nth}.wav`, sha256: (nth + 1).toString(16).padStart(64, '0') },
});

/** Every advice is followed. */
async function follow(job: string): Promise<void> {
  const { advice } = await bench.ask('GET', apiPaths.job(job));
  for (const { id, outcome } of advice as AdviceEntry[]) {
    if (outcome.did === 'open') await bench.ask('POST', apiPaths.outcome(job, id), { did: 'done', note: '' });
  }
}

async function printed(
  job: string,
  audience: Audience,
  format: Format,
): Promise<{ pages: string[]; rows: string[][] }> {
  const page = await (await bench.context()).newPage();
  try {
    await page.goto(bench.address + apiPaths.report(job, audience));
    const file = join(bench.folder, `${job}-${audience}-${format}.pdf`);
    writeFileSync(file, await page.pdf({ format }));
    const rows = await page.$$eval('tr', (list) =>
      list.map((row) => [...row.children].map((cell) => (cell.textContent ?? '').replace(/\s+/g, ''))),
    );
    // in the order of the document, so that a cell's lines follow one another; pages end with a form feed
    const text = execFileSync('pdftotext', ['-raw', file, '-'], { encoding: 'utf8' });
    return { pages: text.split('\f').slice(0, -1), rows };
  } finally {
    await page.close();
  }
}

const bare = (text: string): string => text.replace(/\s+/g, '');

/** Rows that are whole on no page. */
const cut = ({ pages, rows }: { pages: string[]; rows: string[][] }): string[] => {
  const texts = pages.map(bare);
  return rows
    .filter((cells) => !texts.some((text) => cells.every((cell) => text.includes(cell))))
    .map((cells) => cells.join(' | '));
};

beforeAll(async () => {
  try {
    execFileSync('pdftotext', ['-v'], { stdio: 'pipe' });
  } catch {
    throw new Error("no pdftotext here: run 'sudo apt-get install poppler-utils'");
  }
  bench = await openBench();
  const [deck, wav] = [join(bench.folder, 'tilted.deck.json'), join(bench.folder, 'house side.wav')];
  mkdirSync(bench.folder, { recursive: true });
  writeFileSync(deck, JSON.stringify({ schema: 1, name: 'tilted deck', cartridge: { tiltDeg: 1.6 } }));
  await platterside('simulate', '--deck', deck, '-o', wav);
  side = JSON.parse(await platterside('measure', wav, '--json'));
  await bench.ask('PUT', apiPaths.letterhead, {
    name: 'The Corner Bench',
    address: '4 Invented Lane, Sampleton',
    logo,
  });

  await bench.ask('POST', apiPaths.captures(bench.demo), { document: side, station: 'intake', practice: true });
  await follow(bench.demo);
  await bench.ask('POST', apiPaths.captures(bench.demo), { document: again(1), station: 'run', practice: true });

  const { id } = await bench.ask('POST', apiPaths.jobs, {
    title: 'A long title that somebody typed in full while the deck was on the bench and the kettle was on',
    deck: { name: 'A deck with a long name, '.repeat(6), description: 'and a long description of it, '.repeat(60) },
    customer: 'An owner with many first names, two family names and a title',
    notes: 'A note. '.repeat(200),
  });
  twenty = id;
  const faults = { tip: 'chipped at one edge, '.repeat(10), bearings: 'play in the vertical one '.repeat(10) };
  await bench.ask('PATCH', apiPaths.station(twenty, 'intake'), {
    changes: [
      ...Object.entries(faults).map(([name, note]) => ({ path: ['inspection', name], is: { grade: 'fault', note } })),
      { path: ['inspection', 'guard'], is: { grade: 'pass' } },
      { path: ['faults'], is: 'The belt slips. '.repeat(40) },
    ],
  });
  const reason = 'a long reason that says what was missing, and why, '.repeat(6);
  for (let nth = 0; nth < 20; nth++) {
    const document = again(nth);
    const more = ['arm-resonance-lateral', 'arm-resonance-vertical', 'rumble-weighted', 'hum'];
    await bench.ask('POST', apiPaths.captures(twenty), {
      station: nth < 2 ? 'intake' : 'tilt',
      heardAt: new Date(Date.now() + nth * 60_000).toISOString(),
      document: {
        ...document,
        findings: [...document.findings, ...more.map((quantity) => ({ ...document.findings[0], quantity }))].map(
          (finding) => ({ ...finding, verdict: 'undecided', decidedBy: `Undecided: ${finding.quantity}, ${reason}.` }),
        ),
        problems: more.map((quantity) => ({ code: 'withheld', severity: 'note', message: `${reason}.`, quantity })),
      },
    });
    await follow(twenty);
  }
}, 300_000);
afterAll(() => bench?.close());

describe.each(formats)('on %s', (format) => {
  it('the customer’s report of the demo job is one page, with shop, figures, verdicts, work and signature', async () => {
    const sheet = await printed(bench.demo, 'customer', format);
    expect(sheet.pages).toHaveLength(1);
    expect(cut(sheet)).toEqual([]);
    const [text] = sheet.pages;
    for (const words of [
      'The Corner Bench',
      '4 Invented Lane',
      'job 41',
      'Before and after',
      'What was done',
      'Signature',
    ])
      expect(text).toContain(words);
    expect(bare(text)).toContain(bare('Separation, left into right'));
    expect(text).toMatch(/\d+ of \d+ figures are within their limits; .*(undecided|worth adjusting)/);
    expect(text).toContain('with this record');
    expect(text).toContain('✓ within limits');
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('that of a job with 20 recordings, long words and ten figures of two lines is one page, and says what it leaves out', async () => {
    const sheet = await printed(twenty, 'customer', format);
    expect(sheet.pages).toHaveLength(1);
    expect(cut(sheet)).toEqual([]);
    expect(sheet.rows).toHaveLength(11);
    expect(sheet.pages[0]).toMatch(/\d+ more in the technician’s report\./);
    expect(sheet.pages[0]).toContain('All times:');
    expect(sheet.pages[0]).toContain('Found at intake: tip, arm bearings; The belt slips.');
    expect(sheet.pages[0]).toContain('Not checked at intake: cantilever, leads, platter, level.');
  });

  it('the technician’s report of the demo job is at most four pages, whole, no row cut', async () => {
    const sheet = await printed(bench.demo, 'technician', format);
    expect(sheet.pages.length).toBeLessThanOrEqual(4);
    expect(cut(sheet)).toEqual([]);
    const text = sheet.pages.join('\n');
    for (const words of [
      'Harmonics',
      'Curves',
      'Limits used',
      'DIN 45500',
      'Made of',
      'Conditions',
      'Methods and versions',
    ])
      expect(text).toContain(words);
  });

  it('that of a job with 20 recordings lists them all, no row cut', async () => {
    const sheet = await printed(twenty, 'technician', format);
    expect(cut(sheet)).toEqual([]);
    for (let nth = 0; nth < 20; nth++) expect(sheet.pages.join('\n')).toContain(`pass ${nth}.wav`);
  });
});

describe('Hand over', () => {
  it('keeps the shop by its form and the next check by its fields; both are on the report', async () => {
    const page = await bench.page(bench.station('hand-over'), { bypassCSP: true });
    await page.getByText(/Shop on the reports/).click();
    await page.getByLabel('Shop’s name').fill('The Other Bench');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Saved.', { exact: true }).waitFor();
    await page.getByLabel(/^Next check at/).fill('500');
    await page.getByLabel('Next check on').fill('2027-11-01');
    await settled(page);
    await soon(async () => (await bench.stored()).stations['hand-over'].data).toMatchObject({
      dueHours: '500',
      dueDate: '2027-11-01',
    });
    expect(await axeFaults(page)).toEqual([]);
    const { pages } = await printed(bench.demo, 'customer', 'A4');
    expect(pages[0]).toContain('The Other Bench');
    expect(pages[0]).toContain('At 500 stylus hours or on 2027-11-01, whichever comes first.');
  });

  it('refuses a logo that is none, and keeps what was there', async () => {
    const before = await bench.ask('GET', apiPaths.letterhead);
    await expect(
      bench.ask('PUT', apiPaths.letterhead, { name: 'x', logo: 'data:text/html;base64,PHNjcmlwdD4=' }),
    ).rejects.toThrow('a PNG or SVG picture was expected');
    expect(await bench.ask('GET', apiPaths.letterhead)).toEqual(before);
  });
});
