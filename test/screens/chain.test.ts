// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** The chain's own share at Run: leads exchanged, volts from a generator's tone, the preamp's own response. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { JudgedFinding, SideDocument } from '../../src/core/advise/document.ts';
import { apiPaths } from '../../src/core/job/api.ts';
import { tiltedSide } from '../../src/core/job/side.fixture.ts';
import { wave } from '../faults/buildWave.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

const figure = (quantity: string, value: number | string, unit = 'dB'): JudgedFinding => ({
  quantity,
  value,
  unit,
  uncertainty: typeof value === 'number' ? 0.31 : null,
  repeatability: typeof value === 'number' ? 0.02 : null,
  bands: [0, 1],
  note: '',
  verdict: 'info',
});
/** as captured 0.9 dB with the leads as wired, −1.5 dB exchanged: 1.2 dB in the cartridge, −0.3 dB in the chain */
const played = (letter: string, balance: number, order: string): SideDocument => ({
  ...tiltedSide,
  capture: { ...tiltedSide.capture, file: `side-${letter}.wav`, sha256: letter.repeat(64) },
  findings: [
    ...tiltedSide.findings.filter(({ quantity }) => quantity !== 'channel-balance'),
    figure('channel-balance', balance),
    figure('channel-order', order, ''),
  ],
  curves: [
    {
      quantity: 'frequency-response',
      channel: 'left',
      x: [20, 1000, 16_000],
      y: [0.5, 0, -1],
      xUnit: 'Hz',
      yUnit: 'dB',
    },
    { quantity: 'frequency-response', channel: 'right', x: [20, 1000, 16_000], y: [0, 0, 2], xUnit: 'Hz', yUnit: 'dB' },
  ],
});

let bench: Bench;
let page: Page;
let job: string;
beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  job = (await bench.ask('POST', '/api/jobs', { deck: { name: 'a deck with leads' } })).id;
  const keep = (document: SideDocument) => bench.ask('POST', apiPaths.captures(job), { document, station: 'run' });
  // as the record file shows the swap, the second is told by the groove's channels
  await keep(played('b', 1.5, 'swapped'));
  await keep(played('a', 0.9, 'normal'));
  page = await bench.page(`/jobs/${job}/run`);
  await page.getByRole('region', { name: 'Verdicts' }).waitFor();
  await settled(page);
});
afterAll(() => bench?.close());

const run = async () => (await bench.ask('GET', `/api/jobs/${job}`)).stations.run.data;

test('two recordings with the leads exchanged part cartridge and chain, each with both uncertainties and its picture', async () => {
  await page.getByText('Switch the amplifier off before you touch a lead.').waitFor();
  const select = page.getByRole('combobox', { name: 'Leads exchanged' });
  const [second] = await select.locator('option', { hasText: 'side-b.wav' }).all();
  await select.selectOption((await second?.getAttribute('value')) ?? '');
  const row = (name: string) => page.getByRole('listitem').filter({ hasText: name });
  await soon(() => row('Channel balance of the cartridge').innerText()).toMatch(
    /\+1\.2\sdB\s*±\s0\.4\s*±\s0\.02\sdB with this record/,
  );
  await soon(() => row('Channel balance of the chain').innerText()).toMatch(/−0\.30\d?\sdB\s*±\s0\.0\d+/);
  await soon(async () => (await run()).exchanged?.second).toBe(await second?.getAttribute('value'));
  await row('Channel balance of the chain').getByRole('button').click();
  const dialog = page.getByRole('dialog');
  await soon(() => dialog.innerText()).toContain('Left over right, the chain alone');
  await page.keyboard.press('Escape');
  const lines = await (
    await fetch(bench.address + apiPaths.report(job, 'technician'), {
      headers: { authorization: `Bearer ${bench.key}` },
    })
  ).text();
  expect(lines.replace(/<[^>]*>/g, ' ')).toContain('Channel balance of the chain');
});

test('a generator’s tone tells what full scale is in volts; what is no tone is told', async () => {
  const rate = 44_100;
  const tone = (of: (n: number) => number) =>
    Buffer.from(
      wave(
        Array.from({ length: 2 * 3 * rate }, (_, n) => Math.round(of(n >> 1) * (n % 2 === 0 ? 8192 : 4096))),
        16,
        { rateHz: rate },
      ),
    );
  const sine = (n: number) => Math.sin((2 * Math.PI * 1000 * n) / rate);
  await page.getByText('Strobe, drive and chain as assumed').waitFor();
  await page.getByLabel('Generator’s tone, V').fill('5 mV');
  const pick = page.getByLabel('Pick the generator’s recording');
  await pick.setInputFiles({
    name: 'noise.wav',
    mimeType: 'audio/wav',
    buffer: tone((n) => sine(n) * Math.sin(n / 9000)),
  });
  await page.getByText(/^noise\.wav: /).waitFor();
  await pick.setInputFiles({ name: 'tone.wav', mimeType: 'audio/wav', buffer: tone(sine) });
  await page.getByText('A sine at full scale is 0.02 V left and 0.04 V right').waitFor();
  await soon(async () => (await run()).bench).toMatchObject({ fullScaleV: '0.02', fullScaleRightV: '0.04' });
});

test('the response of a self-test is kept as the preamp’s', async () => {
  await page.getByText('Measured responses none kept').waitFor();
  await page.getByText('no CSV: measure the preamp').click();
  await page.getByRole('button', { name: 'Keep the response of side-a.wav as the preamp’s' }).click();
  await soon(async () => (await run()).responses?.preamp?.csv).toBe(
    'frequency_hz,left_db,right_db\r\n20.00,0.5000,0.0000\r\n1000.00,0.0000,0.0000\r\n16000.00,-1.0000,2.0000\r\n',
  );
  expect(bench.errors).toEqual([]);
});
