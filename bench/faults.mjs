// `npm run bench -- faults`: every fault of the practice deck swept over its range, each take measured as a recording from a bench would be; bias, spread and how often the
// stated ± holds the truth, fault by fault. Tracing, bending generators and a record with faults of its own are on throughout. Prints; judges nothing.
//
//   npm run bench -- faults [--seeds 2] [--only tilt,wow] [--figures azimuth-error,speed-error] [--ends] [--rows FILE.jsonl] [--table FILE.md]
//
// `--ends`: the ends of each range alone. `--rows`: every reading is added to this file as it comes, so that a long sweep may be run in portions; `--table` alone with
// `--rows` writes docs/faults.md of what stands there.
import { spawnSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const cli = join(root, 'bin', 'platterside.js');

const tone = (motion, frequencyHz, radiusMm, durationS) => ({
  ...{ signal: 'tone', motion, frequencyHz, radiusMm, durationS, peakVelocityCmS: 5 },
});
const twoTone = (motion, radiusMm) => ({
  ...{ signal: 'two-tone', motion, frequenciesHz: [400, 4000], ratio: 4, radiusMm, durationS: 2.6, peakVelocityCmS: 5 },
});
const sheet = {
  schema: 1,
  name: 'Every fault',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    tone('left', 1000, 140, 2.6),
    tone('right', 1000, 139, 2.6),
    tone('lateral', 1000, 138, 4.5),
    twoTone('lateral', 136),
    tone('lateral', 3150, 130, 6),
    {
      signal: 'sweep',
      motion: 'lateral',
      fromHz: 4,
      toHz: 25,
      law: 'log',
      cut: 'constant-velocity',
      peakVelocityCmS: 1.5,
      radiusMm: 120,
      durationS: 14,
    },
    { signal: 'silent-groove', motion: 'none', radiusMm: 100, durationS: 5 },
    twoTone('vertical', 90),
    tone('lateral', 3150, 72, 4.5),
    twoTone('lateral', 68),
  ],
};

/** Uniform numbers from a seed. */
function draws(seed) {
  let s = (seed * 2_654_435_761) >>> 0;
  return (low, high) => {
    s = (Math.imul(s, 1_664_525) + 1_013_904_223) >>> 0;
    return low + ((high - low) * (s + 0.5)) / 2 ** 32;
  };
}

/** A deck with something of everything, that each fault is laid over. */
function deckOf(seed) {
  const draw = draws(seed);
  const angle = () => draw(-180, 180);
  const leak = (low, high) => ({ db: draw(low, high), phaseDeg: angle() });
  return {
    platter: {
      speedErrorPercent: draw(-0.2, 0.2),
      wow: [{ harmonic: 1, percent: draw(0.01, 0.06), phaseDeg: angle() }],
      flutter: [{ hz: draw(5, 40), percent: draw(0, 0.02), phaseDeg: angle() }],
    },
    record: {
      offCentreMm: draw(0.02, 0.2),
      offCentreAngleDeg: angle(),
      warp: [{ harmonic: 1, mm: draw(0, 0.15), phaseDeg: angle() }],
      surfaceNoiseDb: draw(-60, -52),
      clicksPerMinute: draw(0, 30),
      cut: {
        leftIntoRight: leak(-42, -34),
        rightIntoLeft: leak(-42, -34),
        levelDb: draw(-0.4, 0.4),
        balanceDb: draw(-0.15, 0.15),
        speedErrorPercent: draw(-0.08, 0.08),
        zenithDeg: draw(-0.25, 0.25),
        verticalAngleDeg: draw(-1.5, 1.5),
        secondHarmonicPercent: draw(-0.15, 0.15),
      },
    },
    bearing: { rumbleLateralDb: draw(-56, -46), rumbleVerticalDb: draw(-56, -46) },
    arm: {
      trackingErrorDeg: 0,
      geometry: { spindleToPivotMm: 222, effectiveLengthMm: 239.296 + draw(-0.5, 0.5), offsetDeg: 22.986 },
      pivotHeightMm: 12,
      verticalAngleDeg: draw(18, 24),
      swings: true,
      lateralResonance: { hz: draw(8, 12), q: draw(1.5, 4) },
      verticalResonance: { hz: draw(8, 12), q: draw(1.5, 4) },
    },
    cartridge: {
      tiltDeg: draw(-0.6, 0.6),
      leftIntoRight: leak(-36, -28),
      rightIntoLeft: leak(-36, -28),
      gainDb: { left: draw(-0.6, 0.6), right: 0 },
      secondHarmonicPercent: { left: draw(-0.6, 0.6), right: draw(-0.6, 0.6) },
      thirdHarmonicPercent: { left: draw(-0.1, 0.1), right: draw(-0.1, 0.1) },
      displacementBendPercent: { left: draw(-0.3, 0.3), right: draw(-0.3, 0.3) },
      tipRadiusUm: draw(8, 17),
    },
    preamp: {
      hum: [
        { harmonic: 1, leftDb: draw(-75, -60), rightDb: draw(-75, -60) },
        { harmonic: 3, leftDb: draw(-80, -65), rightDb: draw(-80, -65) },
      ],
      noiseDb: draw(-82, -74),
    },
    side: { beforeDropS: 1, leadInS: 0.8, gapS: 0.7, leadOutS: 0.4, afterLiftS: 0.1 },
  };
}

/** Where each fault lies in the deck's file, and the values that it is given. */
const faults = {
  tilt: [['cartridge.tiltDeg'], [-2, -0.8, 0, 0.8, 2]],
  'cartridge leaks, dB': [
    ['cartridge.leftIntoRight.db', 'cartridge.rightIntoLeft.db'],
    [-45, -32, -24],
  ],
  balance: [['cartridge.gainDb.left'], [-2, 0, 2]],
  speed: [['platter.speedErrorPercent'], [-1.5, -0.3, 0.3, 1.5]],
  wow: [['platter.wow.0.percent'], [0, 0.05, 0.2]],
  flutter: [['platter.flutter.0.percent'], [0, 0.03, 0.1]],
  'drift, %': [['platter.driftPercent'], [0, 0.02, 0.05]],
  'hole, mm': [['record.offCentreMm'], [0, 0.2, 0.6]],
  'warp, mm': [['record.warp.0.mm'], [0, 0.2, 0.5]],
  twist: [['arm.trackingErrorDeg'], [-2, 0, 2]],
  'effective length, mm': [['arm.geometry.effectiveLengthMm'], [237.8, 239.3, 240.8]],
  'vertical angle': [['arm.verticalAngleDeg'], [15, 20, 27]],
  'arm resonance, Hz': [
    ['arm.lateralResonance.hz', 'arm.verticalResonance.hz'],
    [7, 10, 14],
  ],
  'arm Q': [
    ['arm.lateralResonance.q', 'arm.verticalResonance.q'],
    [1, 2.5, 6],
  ],
  'second harmonic, %': [
    ['cartridge.secondHarmonicPercent.left', 'cartridge.secondHarmonicPercent.right'],
    [-1.5, 0, 1.5],
  ],
  'third harmonic, %': [
    ['cartridge.thirdHarmonicPercent.left', 'cartridge.thirdHarmonicPercent.right'],
    [-0.5, 0, 0.5],
  ],
  'bend with displacement, %': [
    ['cartridge.displacementBendPercent.left', 'cartridge.displacementBendPercent.right'],
    [-1, 0, 1],
  ],
  'tip radius, µm': [['cartridge.tipRadiusUm'], [0, 10, 18]],
  'surface noise, dB': [['record.surfaceNoiseDb'], [-65, -55, -45]],
  'clicks a minute': [['record.clicksPerMinute'], [0, 30, 120]],
  'rumble, dB': [
    ['bearing.rumbleLateralDb', 'bearing.rumbleVerticalDb'],
    [-65, -50, -38],
  ],
  'hum, dB': [
    ['preamp.hum.0.leftDb', 'preamp.hum.0.rightDb'],
    [-80, -60, -45],
  ],
  'preamp noise, dB': [['preamp.noiseDb'], [-90, -75, -60]],
  'delay between channels, µs': [['preamp.rightDelayUs'], [-20, 0, 20]],
  'leads exchanged': [['leads.swapped'], [false, true]],
  'one channel upside down': [['leads.leftInverted'], [false, true]],
  'clipping, dBFS': [['converter.clipDbfs'], [0, -12]],
  'cut tilt': [['record.cut.tiltDeg'], [-0.8, 0, 0.8]],
  'cut zenith': [['record.cut.zenithDeg'], [-0.5, 0, 0.5]],
  'cut speed, %': [['record.cut.speedErrorPercent'], [-0.2, 0, 0.2]],
};

function put(deck, path, value) {
  const keys = path.split('.');
  let at = deck;
  for (const key of keys.slice(0, -1)) {
    at[key] ??= {};
    at = at[key];
  }
  at[keys.at(-1)] = value;
}

function run(args) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [cli, ...args], { maxBuffer: 1 << 28 });
  if (status === 2 || status === null) throw new Error(`${args.join(' ')}: ${stderr}`);
  return stdout.toString();
}

/** Figures of one take that have a truth, as errors with what was stated. */
function errorsOf(folder, deck, seed) {
  const at = (name) => join(folder, name);
  writeFileSync(at('deck.json'), JSON.stringify(deck));
  run([
    'simulate',
    '--deck',
    at('deck.json'),
    '--record',
    at('record.json'),
    '--seed',
    String(seed),
    '--rate',
    '44100',
    '--bits',
    '24',
    '--truth',
    at('truth.json'),
    '-o',
    at('take.wav'),
    '--replace',
  ]);
  const truth = JSON.parse(readFileSync(at('truth.json'), 'utf8'));
  const arm = ['--spindle-to-pivot', '222', '--effective-length', '239.296', '--offset', '22.986'];
  const told = JSON.parse(run(['measure', at('take.wav'), '--record', at('record.json'), '--json', ...arm]));
  const bandOf = (band) => told.bands.find(({ index }) => index === band)?.sheetBand ?? null;
  const errors = [];
  const singles = truth.figures.filter(({ value }) => typeof value === 'number');
  for (const figure of told.findings) {
    if (typeof figure.value !== 'number') continue;
    const band = figure.bands.length === 1 ? bandOf(figure.bands[0]) : null;
    const alike = singles.filter(({ quantity, channel }) => quantity === figure.quantity && channel === figure.channel);
    const true_ = alike.length === 1 ? alike[0] : alike.find(({ bands }) => bands.length === 1 && bands[0] === band);
    // angles are told at their own radius; two-tone bands have theirs among the truth's bands
    const ofBand =
      figure.quantity === 'tracking-error' && band !== null ? truth.bands[band]?.pathErrorDeg : true_?.value;
    if (typeof ofBand !== 'number') continue;
    errors.push({
      quantity: figure.quantity,
      unit: figure.unit,
      error: figure.value - ofBand,
      of: `${figure.channel ?? ''} ${figure.bands.join(', ')}`.trim(),
      told: figure.value,
      uncertainty: figure.uncertainty,
      ...inside(figure, ofBand),
    });
  }
  return errors;
}

function inside({ value, uncertainty, low, high }, truth) {
  if (low !== undefined && high !== undefined) return { holds: truth >= low && (high === null || truth <= high) };
  return uncertainty === null ? {} : { holds: Math.abs(value - truth) <= uncertainty };
}

function grouped(rows, key) {
  const groups = new Map();
  for (const row of rows) groups.set(row[key], [...(groups.get(row[key]) ?? []), row]);
  return groups;
}

/** Bias, spread, largest and how often the ± held, of each figure. */
function summed(rows) {
  return [...grouped(rows, 'quantity')]
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([quantity, list]) => {
      const n = list.length;
      const bias = list.reduce((sum, { error }) => sum + error, 0) / n;
      const judged = list.filter(({ holds }) => holds !== undefined);
      return {
        quantity,
        n,
        bias,
        unit: list[0].unit,
        spread: Math.sqrt(list.reduce((sum, { error }) => sum + (error - bias) ** 2, 0) / Math.max(1, n - 1)),
        largest: Math.max(...list.map(({ error }) => Math.abs(error))),
        judged: judged.length,
        held: judged.filter(({ holds }) => holds).length,
      };
    });
}

function table(rows) {
  const show = (v) => v.toPrecision(3).padStart(10);
  for (const { quantity, n, bias, spread, largest, unit, held, judged } of summed(rows)) {
    console.log(
      `  ${quantity.padEnd(30)} n ${String(n).padStart(3)}  bias ${show(bias)}  spread ${show(spread)}  largest ${show(largest)} ${unit.padEnd(4)} ± holds ${held} of ${judged}`,
    );
  }
}

const told = (row) => {
  const stated = row.uncertainty === null ? 'between its ends' : `± ${row.uncertainty.toPrecision(2)}`;
  return `${row.quantity} (${row.of}) ${row.told.toPrecision(4)} ${stated}, error ${row.error.toPrecision(2)} ${row.unit}, at ${row.size}, seed ${row.seed}`;
};

/** The page for docs: all figures together, then fault by fault. */
function page(rows, commit) {
  const faultsHeard = [...grouped(rows, 'fault')];
  const short = (v) => String(Number(v.toPrecision(2)));
  const line = ({ quantity, n, bias, spread, largest, unit, held, judged }) =>
    `| \`${quantity}\` | ${n} | ${short(bias)} | ${short(spread)} | ${short(largest)} | ${unit} | ${held} of ${judged} |`;
  const head = (what) => [
    `| ${what} | n | bias | spread | largest | unit | ± holds |`,
    '| --- | --- | --- | --- | --- | --- | --- |',
  ];
  return [
    '# Every fault of the practice deck, swept',
    '',
    `Made by \`npm run bench -- faults --ends --rows ROWS.jsonl\` and \`--rows ROWS.jsonl --table docs/faults.md\` on ${new Date().toISOString().slice(0, 10)} from ${commit}: ${faultsHeard.length} faults at both ends`,
    'of their range, each on decks of their own draw with something of everything else (tracing, bending generators, a record with faults of its own, a swinging arm). Error is told less true. The sweep judges nothing.',
    '',
    '## All together',
    '',
    ...head('figure'),
    ...summed(rows).map(line),
    '',
    '## Fault by fault',
    '',
    '| fault | at | readings | ± holds | outside |',
    '| --- | --- | --- | --- | --- |',
    ...faultsHeard.map(([fault, list]) => {
      const judged = list.filter(({ holds }) => holds !== undefined);
      const outside = judged.filter(({ holds }) => !holds);
      const sizes = [...new Set(list.map(({ size }) => size))].join(', ');
      return `| ${fault} | ${sizes} | ${list.length} | ${judged.length - outside.length} of ${judged.length} | ${outside.map(told).join('; ') || '–'} |`;
    }),
    '',
  ].join('\n');
}

/** @param args of the command line behind `faults` */
export function sweepFaults(args) {
  const { values } = parseArgs({
    args,
    options: {
      seeds: { type: 'string', default: '1' },
      only: { type: 'string' },
      figures: { type: 'string' },
      ends: { type: 'boolean' },
      rows: { type: 'string' },
      table: { type: 'string' },
    },
  });
  if (values.table !== undefined && values.rows !== undefined) {
    const rows = readFileSync(values.rows, 'utf8')
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    const commit = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: root }).stdout.toString().trim();
    writeFileSync(values.table, page(rows, commit));
    return;
  }
  const only = values.only?.split(',');
  const wanted = values.figures?.split(',');
  const folder = mkdtempSync(join(tmpdir(), 'platterside-faults-'));
  writeFileSync(join(folder, 'record.json'), JSON.stringify(sheet));
  const all = [];
  try {
    for (const [number, [name, [paths, range]]] of Object.entries(faults).entries()) {
      if (only !== undefined && !only.some((one) => name.startsWith(one))) continue;
      const sizes = values.ends === true ? [range[0], range.at(-1)] : range;
      const rows = [];
      sizes.forEach((size, i) => {
        for (let seed = 1; seed <= Number(values.seeds); seed++) {
          // each fault on decks of its own: what one deck does by chance is not seen thirty times
          const own = 10_000 * (number + 1) + 100 * seed + i;
          const deck = deckOf(own);
          for (const path of paths) put(deck, path, size);
          const read = errorsOf(folder, deck, own).map((row) => ({ ...row, fault: name, size, seed }));
          if (values.rows !== undefined)
            for (const row of read) appendFileSync(values.rows, `${JSON.stringify(row)}\n`);
          rows.push(...read);
        }
      });
      const shown = wanted === undefined ? rows : rows.filter(({ quantity }) => wanted.includes(quantity));
      console.log(`\n${name}: ${sizes.join(', ')}`);
      table(shown);
      for (const row of shown.filter(({ holds }) => holds === false)) console.log(`    outside: ${told(row)}`);
      all.push(...shown);
    }
    console.log('\nall together');
    table(all);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
