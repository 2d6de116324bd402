import { beforeAll, describe, expect, it } from 'vitest';
import type { SideDocument } from '../core/advise/document.ts';
import { withheld } from '../core/capture/problem.ts';
import { groupCurves } from '../core/draw/chart/curves.ts';
import { thinned } from '../core/draw/chart/line.ts';
import type { CaptureRecord, Job } from '../core/job/api.ts';
import { bandMark, comparedOf } from '../core/job/beforeAfter.ts';
import { demoJob } from '../core/job/demoJob.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import type { Curve } from '../core/measure/finding.ts';
import { statement } from '../core/words/statement.ts';
import { renderJobReport } from './jobReport.tsx';
import { renderSideReport } from './sideReport.tsx';

const made = { madeAt: '2026-03-04T12:00:00.000Z', version: '0.0.1', zone: 'Europe/Prague' };
const shop = { name: 'The Corner Bench', address: '4 Invented Lane', logo: 'data:image/png;base64,iVBORw0KGgoAAAA=' };
const customers = { audience: 'customer', letterhead: shop, made } as const;
const technicians = { audience: 'technician', letterhead: shop, made } as const;
const nasty = '</style><script>alert("1")</script><img src=x onerror=alert(2)> & "quoted" \'single\'';

/** A job put together without a store. */
function jobOf(sides: readonly SideDocument[]): { job: Job; captures: CaptureRecord[] } {
  const file = demoJob({
    at: '2026-03-04T09:00:00.000Z',
    madeBy: 'x',
    sides: sides.map((document, place) => ({
      document,
      station: place === 0 ? ('intake' as const) : ('tilt' as const),
      heardAt: `2026-03-04T09:0${place}:00.000Z`,
    })),
  });
  const captures = file.captures.map((capture) => ({ ...capture, sha256: capture.document.capture.sha256 }));
  const entries = captures.map(({ document, ...capture }) => ({
    ...capture,
    ...document.capture,
    findings: [...document.findings],
    bandMarks: document.bands.map(bandMark),
    method: document.method ?? '1',
    unfit: null,
  }));
  return {
    captures,
    job: {
      ...file.job,
      captures: entries,
      advice: file.advice,
      ...comparedOf({ ...file.job, captures: entries }),
      shop: {},
      photographs: [],
    },
  };
}

/** The text a person reads. */
const textOf = (html: string): string =>
  html
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&amp;', '&')
    .replaceAll('&lt;', '<')
    .replace(/\s+/g, ' ');

function expectSelfContained(html: string): void {
  expect(html.startsWith('<!doctype html>\n<html lang="en">')).toBe(true);
  expect(html).not.toMatch(/<(script|link(?! rel="icon" href="data:,"\/>)|iframe|object|embed|base|form)\b/i);
  expect(html).not.toMatch(/<img(?! src="data:image\/)/i);
  expect(html).toContain(`<meta http-equiv="Content-Security-Policy" content="default-src 'none';`);
  expect(html).not.toMatch(/\son[a-z]+=/i);
  expect(html).not.toMatch(/https?:|url\(|@import/i);
  expect(html).not.toMatch(/NaN|Infinity|undefined|\[object/);
}

describe('the technician’s report', () => {
  let html: string;
  let text: string;
  beforeAll(() => {
    const { job, captures } = jobOf([tiltedSide, straightSide]);
    html = renderJobReport(job, captures, technicians);
    text = textOf(html);
  });

  it('needs nothing else: no script, nothing fetched', () => expectSelfContained(html));

  it('sets before and after side by side, with the uncertainty of the change', () => {
    expect(text).toContain(
      'Separation, left into right 30.30 ± 0.10 dB 27.95 ± 0.10 dB −2.35 ± 0.15 dB △ worth adjusting',
    );
    expect(text).toContain('Tilt (azimuth error) +0.90 ± 0.04° +0.02 ± 0.04° −0.88 ± 0.06°');
    expect(text).toContain('Polarity in phase in phase as before ✓ within limits');
  });

  it('tells the limit beside each figure that has one: the job’s own', () => {
    expect(text).toMatch(/−2\.35 ± 0\.15 dB △ worth adjusting Within limits from 25 dB; outside under 20\./);
    expect(text).toMatch(/−0\.88 ± 0\.06° △ worth adjusting (?!Within limits).*?Read from band 1, 2\. /);
    const { job, captures } = jobOf([tiltedSide, straightSide]);
    job.stations.run.data = { limits: { own: { 'separation-left-to-right': { good: '31' } } } };
    expect(textOf(renderJobReport(job, captures, technicians))).toContain('from 31 dB; outside under 20');
  });

  it('tells each advice and what came of it; followed, it is a move in words', () => {
    expect(text).toContain('Advised; nobody has noted whether it was done.');
    expect(text).toContain('Turn the cartridge anticlockwise, seen from its face, by 0.9°.');
    expect(text).toContain('27.95 ± 0.15 dB ✓ as predicted 27.20 ± 0.15 dB △ otherwise than predicted');
    const { job, captures } = jobOf([tiltedSide, straightSide]);
    job.advice[0].outcome.did = 'done';
    expect(textOf(renderJobReport(job, captures, technicians))).toContain(
      'Tilt: turned 0.90° anticlockwise, seen from the front.',
    );
  });

  it('shows each photograph with its station and note, in the file itself; the customer’s page has none', () => {
    const { job, captures } = jobOf([straightSide]);
    const photographs = [
      {
        id: 'a',
        station: 'intake' as const,
        at: '2026-03-04T09:30:00.000Z',
        note: 'worn <tip>',
        width: 16,
        height: 12,
        jpeg: '/9j/2w==',
      },
    ];
    const shown = renderJobReport(job, captures, { ...technicians, photographs });
    expectSelfContained(shown);
    expect(shown).toContain('<img src="data:image/jpeg;base64,/9j/2w==" alt="worn &lt;tip>"');
    expect(textOf(shown)).toContain('Intake : worn <tip>');
    expect(renderJobReport(job, captures, { ...customers, photographs })).not.toContain('image/jpeg');
  });

  it('says that it is not final while a station is open, and why', () => {
    expect(text).toContain('Not final. Still open: Weigh, Tilt, Run.');
    expect(text).toContain('Weigh: The cartridge was slid in its slots (1.2 mm forward) at Place:');
    const { job, captures } = jobOf([straightSide]);
    for (const state of Object.values(job.stations)) state.status = 'done';
    for (const whom of [customers, technicians])
      expect(renderJobReport(job, captures, whom)).not.toContain('Not final');
  });

  it('names the evidence: file, fingerprint, bands, curves, limits, and what could not be said; times in the bench’s zone', () => {
    expect(text).toContain('side-b.wav');
    expect(text).toContain('b'.repeat(64));
    expect(text).toContain('2 15.00 s 27.00 s tone right 1000.2 Hz');
    expect(html).toContain('<path');
    expect(text).toContain('There is no vertical band on this side.');
    expect(text).toContain('Separation, left into right from 25 dB under 20 dB good: common practice; bad: DIN 45500');
    expect(text).toContain('Made 2026-03-04 13:00 by platterside 0.0.1. All times: Europe/Prague.');
  });

  it('gives what the stations give it, and a job without recordings as it is', () => {
    const { job } = jobOf([]);
    const setTo18 = {
      at: '2026-03-04T09:30:00.000Z',
      by: 'gauge',
      mn: 18,
      uncertaintyMn: 0.2,
      targetMn: 18,
      dialMn: null,
      calibrated: true,
      left: false,
    };
    job.stations.weigh.data = { notes: 'first\nsecond', sets: [setTo18] };
    const plain = textOf(renderJobReport(job, [], technicians));
    expect(plain).toMatch(/Tracking force 18\.00? ± 0\.20? mN/);
    expect(plain).toContain('first second');
    expect(plain).toContain('Nothing has been measured yet.');
    expect(plain).not.toContain('Before and after');
  });

  it('lists every move, of whichever station, with what was predicted and what came', () => {
    const { job } = jobOf([]);
    const force = (value: number, uncertainty: number | null) => ({
      quantity: 'tracking-force',
      value,
      unit: 'mN',
      uncertainty,
    });
    job.stations.weigh.data = {
      moves: [
        {
          at: '2026-03-04T09:30:00.000Z',
          station: 'weigh',
          move: 'set-force',
          amount: 1.5,
          unit: 'mN',
          direction: 'more',
          before: [force(16.5, 0.2)],
          foretold: [force(18, null)],
          came: { at: '2026-03-04T09:30:00.000Z', figures: [force(18.1, 0.2)] },
        },
      ],
    };
    expect(textOf(renderJobReport(job, [], technicians))).toContain(
      '2026-03-04 10:30 Weigh: force 1.5 mN more. Tracking force 18.0 mN 18.10 ± 0.29 mN ✓ as predicted',
    );
    expect(textOf(renderJobReport(job, [], customers))).toContain(
      'Weigh: force 1.5 mN more. Tracking force: predicted 18.0 mN, measured 18.10 ± 0.29 mN ✓ as predicted',
    );
  });

  it('fits A4 and Letter: the page size is left to the printer, margins are set', () => {
    expect(html).toContain('@page{margin:9mm 13mm}');
    expect(html).not.toMatch(/@page\{[^}]*size/);
  });
});

describe('the customer’s report', () => {
  it('carries the shop, the result in one sentence, at most ten figures with mark and word, and no more', () => {
    const { job, captures } = jobOf([tiltedSide, straightSide]);
    const html = renderJobReport(job, captures, customers);
    expectSelfContained(html);
    expect(html).toContain(`<img src="${shop.logo}" alt="The Corner Bench"/>`);
    const text = textOf(html);
    expect(text).toContain('The Corner Bench 4 Invented Lane');
    expect(text).toContain(
      '1 of 5 figures is within its limit; worth adjusting: separation, tilt (azimuth error), channel balance.',
    );
    expect(text).toContain('Separation, left into right 30.30 ± 0.10 dB 27.95 ± 0.10 dB △ worth adjusting');
    expect(text).toContain('Next check: Not set.');
    expect(html.match(/<tr>/g)?.length).toBeLessThanOrEqual(11);
    expect(text).not.toContain('b'.repeat(64));
  });

  it('tells what lies outside its limits before the ten usual ones, and one row of several bands: the worst', () => {
    const extra = (quantity: string, verdict: 'bad' | 'good', value: number) => ({
      ...straightSide.findings[0],
      quantity,
      verdict,
      value,
    });
    const many = [
      ...straightSide.findings,
      ...['speed-error', 'wow-flutter-weighted-deck', 'arm-resonance-lateral', 'rumble-weighted', 'hum'].map((name) =>
        extra(name, 'good', 1),
      ),
      extra('second-harmonic', 'good', 2),
      extra('second-harmonic', 'bad', 3),
    ];
    const { job, captures } = jobOf([tiltedSide, { ...straightSide, findings: many }]);
    const text = textOf(renderJobReport(job, captures, customers));
    expect(text).toContain('Second harmonic not measured 3.00 ± 0.10 dB ✕ outside limits');
    expect(text).not.toContain('2.00 ± 0.10 dB');
    expect(text).toContain('outside limits: second harmonic');
  });

  it('gives the verdict of what was measured last, not the one as received', () => {
    const one = (verdict: 'bad' | 'good') => [{ ...tiltedSide.findings[0], verdict }];
    for (const [first, last, word, not] of [
      ['bad', 'good', 'within limits', '✕'],
      ['good', 'bad', '✕ outside limits', '✓'],
    ] as const) {
      const { job, captures } = jobOf([
        { ...tiltedSide, findings: one(first) },
        { ...straightSide, findings: one(last) },
      ]);
      for (const whom of [customers, technicians]) {
        const html = renderJobReport(job, captures, whom);
        const row = html
          .split(/<\/?tr>/)
          .find((r) => r.includes('eparation, left into right') && r.includes('class="verdict'));
        expect(textOf(row ?? '')).toContain(word);
        expect(textOf(row ?? '')).not.toContain(not);
      }
    }
  });

  it('prints why the job was closed with stations open', () => {
    const { job, captures } = jobOf([straightSide]);
    job.stations['hand-over'].data = { closedOver: 'The owner fetched it early' };
    for (const whom of [customers, technicians])
      expect(textOf(renderJobReport(job, captures, whom))).toContain('The owner fetched it early');
  });

  it('names for the customer what was found at intake and what nobody looked at', () => {
    const { job, captures } = jobOf([straightSide]);
    const customer = () => textOf(renderJobReport(job, captures, customers));
    job.stations.intake.data = {};
    expect(customer()).not.toContain('intake');
    const long = 'a note that goes on '.repeat(10);
    const inspection = (note: string) => ({
      tip: { grade: 'fault', note },
      bearings: { grade: 'fault' },
      level: { grade: 'pass' },
      guard: { grade: 'not-checked' },
    });
    job.stations.intake.data = { inspection: inspection('chipped'), faults: 'The belt slips.' };
    expect(customer()).toContain('Found at intake: tip (chipped), arm bearings; The belt slips.');
    expect(customer()).toContain('Not checked at intake: guard and arm lock, cantilever, leads, platter.');
    job.stations.intake.data = { inspection: inspection(long) };
    expect(customer()).toContain('Found at intake: tip, arm bearings.');
    job.stations.intake.data = { faults: 'x'.repeat(5000) };
    expect(customer()).toMatch(/Found at intake: x{150,160}…/);
    expect(customer()).not.toContain('Not checked at intake');
  });

  it('gives an interval first and the reading with this record under it, and says where nothing was measured after', () => {
    const open = { ...tiltedSide.findings[0], uncertainty: null, repeatability: 0.01, low: 25.3, high: null };
    const { job, captures } = jobOf([{ ...tiltedSide, findings: [open] }]);
    const text = textOf(renderJobReport(job, captures, customers));
    expect(text).toContain('at least 25.3 dB 30.30 ± 0.01 dB with this record not measured');
    expect(text).toContain('These are the figures as received: nothing was measured after.');
    expect(text).toMatch(/Before: \S.*?, 2026-03-04 10:00, as received\./);
  });

  it('lets no figure as received speak for what was fitted since', () => {
    const { job, captures } = jobOf([tiltedSide]);
    const at = '2026-03-04T10:00:00.000Z';
    const fitted = { id: 'f', kind: 'cartridge' as const, name: 'new one', was: 'old one', station: 'match' as const };
    job.fittings = [{ ...fitted, at, hours: 0 }];
    Object.assign(job, comparedOf(job));
    for (const whom of [customers, technicians]) {
      const text = textOf(renderJobReport(job, captures, whom));
      expect(text).toContain('Nothing was measured since the cartridge new one was fitted.');
      expect(text).not.toMatch(/figures? (is|are) within/);
    }
  });

  it('tells the response once a channel, however many spans it was read over, and the worst of them', () => {
    const response = (quantity: string, value: number, verdict: 'good' | 'adjust') => ({
      ...tiltedSide.findings[0],
      ...{ quantity, value, verdict, channel: 'left' as const },
    });
    const findings = [
      response('frequency-response-deviation', 1, 'good'),
      response('frequency-response-deviation-40-12500', 3, 'adjust'),
      response('frequency-response-deviation-100-10000', 2, 'adjust'),
    ];
    const { job, captures } = jobOf([{ ...tiltedSide, findings }]);
    const html = renderJobReport(job, captures, customers);
    expect(html.match(/<tr>/g)).toHaveLength(2);
    expect(textOf(html)).toContain('Deviation of the response, 40 Hz to 12.5 kHz, left 3.00');
  });

  it('tells figures that are withheld for one reason in one sentence', () => {
    const why = statement('no-speed-tone');
    const problems = ['speed-error', 'hum', 'polarity'].map((name) => withheld(name, why));
    const { job, captures } = jobOf([{ ...tiltedSide, problems }]);
    for (const whom of [customers, technicians])
      expect(textOf(renderJobReport(job, captures, whom))).toContain(
        'Speed error; Hum in the groove, under the reference level; Polarity are withheld: no tone tells the speed.',
      );
  });

  it('counts what it leaves out', () => {
    const problems = Array.from({ length: 60 }, (_, nth) => ({
      code: 'withheld',
      severity: 'note' as const,
      message: `Reason ${nth} is a sentence.`,
    }));
    const { job, captures } = jobOf([{ ...tiltedSide, problems }]);
    const text = textOf(renderJobReport(job, captures, customers));
    const shown = text.match(/Reason \d+ is a sentence\./g) ?? [];
    const [, more] = /(\d+) more in the technician’s report/.exec(text) ?? [];
    expect(shown.length).toBeGreaterThan(5);
    // one more reason is of what no band shows
    expect(shown.length + Number(more)).toBe(60);
  });
});

describe('what people type', () => {
  it('is text and nothing else', () => {
    const { job, captures } = jobOf([tiltedSide]);
    const { document } = captures[0];
    const evil: SideDocument = {
      ...document,
      capture: { ...document.capture, file: nasty },
      findings: [{ ...document.findings[0], quantity: nasty, unit: nasty, note: nasty }],
      problems: [{ code: 'x', severity: 'error', message: nasty }],
      curves: [{ ...document.curves[0], quantity: nasty, xUnit: nasty, yUnit: nasty }],
      advice: [{ ...document.advice[0], why: nasty, caution: nasty }],
    };
    job.title = nasty;
    job.notes = nasty;
    job.customer = nasty;
    job.deck = { id: 'd', name: nasty, description: nasty };
    job.stations.intake.data = { notes: nasty, cartridge: nasty, faults: nasty };
    job.advice[0].outcome.note = nasty;
    for (const html of [
      renderJobReport(job, [{ ...captures[0], document: evil }], customers),
      renderJobReport(job, [{ ...captures[0], document: evil }], technicians),
      renderSideReport(evil, made),
    ]) {
      expect(html).not.toContain('<script');
      expect(html).not.toMatch(/<img(?! src="data:image\/png)/);
      expect(html.match(/<\/style>/g)).toHaveLength(1);
      expect(html).not.toMatch(/aria-label="[^"]*"1"/);
      expect(html).toContain('&lt;script>');
    }
  });
});

describe('the report of one recording', () => {
  it('holds figures, advice with its prediction, bands and reasons', () => {
    const html = renderSideReport(tiltedSide, made);
    expectSelfContained(html);
    const text = textOf(html);
    expect(text).toContain('Separation, left into right 30.30 ± 0.10 dB △ worth adjusting 1, 2');
    expect(text).toContain(
      'Predicted after it: Separation, left into right 27.9 dB; Separation, right into left 27.9 dB.',
    );
    expect(text).toContain('96 kHz, 24 bit, 2 channels, 42.5 s');
  });

  it('says so where there is nothing', () => {
    const empty: SideDocument = { ...tiltedSide, bands: [], findings: [], advice: [], problems: [], curves: [] };
    const text = textOf(renderSideReport({ ...empty, capture: { ...empty.capture, sha256: null } }, made));
    expect(text).toContain('No figure could be given.');
    expect(text).toContain('Nothing that these figures ask for.');
    expect(text).toContain('No band was found.');
    expect(text).toContain('none: live');
  });

  it('gives a forecast its band', () => {
    const finding = { ...tiltedSide.findings[0], quantity: 'arm-resonance', value: 9.6, unit: 'Hz', uncertainty: null };
    const html = renderSideReport({ ...tiltedSide, findings: [{ ...finding, low: 8.2, high: 11 }] }, made);
    expect(textOf(html)).toContain('Arm resonance 8.20 to 11.00 Hz 9.60 Hz');
  });
});

describe('charts', () => {
  it('join both channels of a quantity and band', () => {
    const curve = { quantity: 'frequency-response', x: [20, 2000, 20000], y: [0, 1, 2], xUnit: 'Hz', yUnit: 'dB' };
    const groups = groupCurves<Curve>([
      { ...curve, channel: 'left' },
      { ...curve, channel: 'right' },
      { ...curve, band: 3 },
      { ...curve, x: [1], y: [1] },
    ]);
    expect(groups.map((group) => [group.band, group.curves.length])).toEqual([
      [null, 2],
      [3, 1],
    ]);
  });

  it('keep every peak of a long curve', () => {
    const y = Array.from({ length: 100_000 }, (_, index) => (index === 54_321 ? 9 : index === 12_345 ? -9 : 0));
    const kept = thinned(y, 600);
    expect(kept.length).toBeLessThanOrEqual(602);
    expect(kept).toContain(54_321);
    expect(kept).toContain(12_345);
    expect(kept[0]).toBe(0);
    expect(kept.at(-1)).toBe(99_999);
    expect([...kept].sort((a, b) => a - b)).toEqual(kept);
  });

  it('draw flat curves and 0 Hz without numbers that are none', () => {
    const flat = { quantity: 'spectrum', x: [0, 10, 10_000], y: [5, 5, 5], xUnit: 'Hz', yUnit: 'dB' };
    const html = renderSideReport({ ...tiltedSide, curves: [flat, { ...flat, x: [0, 0, 0] }] }, made);
    expectSelfContained(html);
    expect(html.match(/<path/g)).toHaveLength(2);
  });
});

describe('two lines per figure and the fourth verdict', () => {
  it('shows how the figure repeats, the undecided verdict in mark and word, and what would decide it', () => {
    const first = tiltedSide.findings.find(({ quantity }) => quantity === 'azimuth-error')!;
    const finding = {
      ...first,
      uncertainty: 0.81,
      repeatability: 0.01,
      verdict: 'undecided' as const,
      decidedBy: 'A record with a certificate would decide it.',
    };
    const text = textOf(renderSideReport({ ...tiltedSide, findings: [finding] }, made));
    expect(text).toContain('± 0.01° with this record');
    expect(text).toContain('? undecided');
    expect(text).toContain('A record with a certificate would decide it.');
  });
});
