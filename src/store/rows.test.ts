import { expect, it } from 'vitest';
import type { AdviceEntry, PredictionCheck, StationState } from '../core/job/api.ts';
import { tiltedSide, turnAdvice } from '../core/job/side.fixture.ts';
import {
  adviceEntry,
  adviceRow,
  asideOf,
  captureEntry,
  checkRows,
  deckOf,
  documentOf,
  findingRows,
  fittingOf,
  partOf,
  saidOf,
  stationRow,
  stationState,
} from './rows.ts';

const AT = '2026-03-04T09:00:00.000Z';
const said = { practice: 0, said_kind: null, said_epoch: null, set_aside_at: null, set_aside_why: null };
const capture = {
  ...said,
  id: 'c',
  job_id: 'j',
  station: 'run',
  heard_at: AT,
  stored_at: '2026-03-05T09:00:00.000Z',
  sha256: 'f'.repeat(64),
  file: 'of the row',
  duration_s: 1,
  document_json: '{}',
  method: '3',
  record_key: null,
  record_name: null,
};

it('figures are rows in their order, in numbers or in words, with their channel where they have one', () => {
  const [figure] = tiltedSide.findings;
  const findings = [
    figure,
    { ...figure, value: 'not found', uncertainty: null },
    { ...figure, channel: 'left' as const, value: 0 },
  ];
  const { quantity, unit, uncertainty, verdict, value } = figure;
  const row = { capture_id: 'c', quantity, channel: null, unit, uncertainty, verdict, value_text: null };
  expect(findingRows('c', { ...tiltedSide, findings })).toEqual([
    { ...row, place: 0, value_number: value },
    { ...row, place: 1, value_number: null, value_text: 'not found', uncertainty: null },
    { ...row, place: 2, channel: 'left', value_number: 0 },
  ]);
  expect(findingRows('c', { ...tiltedSide, findings: [] })).toEqual([]);
});

it('a recording is told by its row and its document together', () => {
  const { curves: _, ...head } = tiltedSide;
  const entry = captureEntry(capture, head);
  expect(entry).toMatchObject({
    id: 'c',
    heardAt: AT,
    storedAt: capture.stored_at,
    station: 'run',
    file: 'side-a.wav',
    sampleRateHz: 96000,
    bitDepth: 24,
    durationS: 42.5,
    sha256: capture.sha256,
    method: head.method ?? '1',
    findings: head.findings,
    practice: false,
    saidKind: null,
    saidEpoch: null,
    setAside: null,
  });
  expect(entry.bandMarks).toHaveLength(head.bands.length);
  expect(entry).not.toHaveProperty('record');
  const record = { key: 'k', name: 'n' };
  const { method: __, ...old } = { ...head, record };
  expect(captureEntry(capture, old)).toMatchObject({ method: '1', record });
  expect(captureEntry(capture, { ...head, method: '7' }).method).toBe('7');
});

it('what a person said of a recording or a job is told with its reason', () => {
  expect(saidOf(capture)).toEqual({ practice: false, saidKind: null, saidEpoch: null, setAside: null });
  const more = { practice: 1, said_kind: 'pass', said_epoch: 'e', set_aside_at: AT, set_aside_why: 'w' };
  expect(saidOf({ ...capture, ...more })).toEqual({
    practice: true,
    saidKind: 'pass',
    saidEpoch: 'e',
    setAside: { at: AT, why: 'w' },
  });
  expect(saidOf({ ...capture, set_aside_at: AT }).setAside).toEqual({ at: AT, why: '' });
  expect(asideOf({ set_aside_at: null, set_aside_why: 'x' })).toBeNull();
  expect(asideOf({ set_aside_at: AT, set_aside_why: null })).toEqual({ at: AT, why: '' });
  expect(asideOf({ set_aside_at: AT, set_aside_why: 'w' })).toEqual({ at: AT, why: 'w' });
});

it('a document is put together again from its two columns', () => {
  const { curves, ...head } = tiltedSide;
  const row = { document_json: JSON.stringify(head), curves_json: JSON.stringify(curves) };
  expect(documentOf(row)).toEqual(JSON.parse(JSON.stringify(tiltedSide)));
});

it('an advice and its checks come back from their rows as they went in', () => {
  const check: PredictionCheck = {
    quantity: 'q',
    unit: 'dB',
    before: 1,
    predicted: 2,
    measured: null,
    uncertainty: 0.5,
    came: 'otherwise',
    why: 'w',
  };
  const checks = [check, { ...check, before: null, measured: 3, quantity: 'r' }];
  const entry: AdviceEntry = {
    id: 'a',
    captureId: 'c',
    givenAt: AT,
    advice: turnAdvice,
    outcome: { did: 'done', note: 'n', at: AT },
    checkedBy: 'd',
    checks,
  };
  const row = adviceRow('j', 4, entry);
  expect(row).toMatchObject({
    job_id: 'j',
    place: 4,
    action: 'tilt',
    amount: 0.9,
    unit: 'deg',
    direction: turnAdvice.direction,
  });
  const rows = checkRows('a', checks);
  expect(rows.map(({ advice_id, place, before_value }) => [advice_id, place, before_value])).toEqual([
    ['a', 0, 1],
    ['a', 1, null],
  ]);
  expect(rows[0]).not.toHaveProperty('before');
  expect(adviceEntry(row, rows)).toEqual(entry);
  expect(adviceEntry(row, [])).toEqual({ ...entry, checks: [] });
});

it('a station comes back as it went in; what no version can read is left out of its data', () => {
  const state: StationState = { status: 'now', data: { target: '1.8' }, revision: 3, updatedAt: AT };
  const row = stationRow('j', 'weigh', state);
  expect(row).toEqual({
    job_id: 'j',
    station: 'weigh',
    status: 'now',
    stale_because_json: null,
    data_json: '{"target":"1.8"}',
    revision: 3,
    updated_at: AT,
  });
  expect(stationState(row)).toEqual(state);
  const stale: StationState = { ...state, status: 'stale', staleBecause: ['It was moved.'] };
  expect(stationRow('j', 'weigh', stale).stale_because_json).toBe('["It was moved."]');
  expect(stationState(stationRow('j', 'weigh', stale))).toEqual(stale);
  expect(stationState({ ...row, data_json: '{"target":"1.8","forceUnit":42}' }).data).toEqual({ target: '1.8' });
});

it('a deck, a fitting and a part are told without what is only the database’s', () => {
  const deck = { id: 'd', name: 'n', plain: 'n', description: 'x', created_at: AT };
  expect(deckOf(deck)).toEqual({ id: 'd', name: 'n', description: 'x' });
  const fitting = { id: 'f', job_id: 'j', at: AT, station: 'match', kind: 'stylus', name: 'S', was: 'R', hours: 5 };
  const { job_id: _, ...told } = fitting;
  expect(fittingOf(fitting)).toEqual(told);
  const part = { kind: 'arm', id: 'p', name: 'n', data_json: '{"name":"N"}', revision: 2, updated_at: AT };
  expect(partOf(part)).toEqual({ kind: 'arm', id: 'p', data: { name: 'N' }, revision: 2, updatedAt: AT });
});
