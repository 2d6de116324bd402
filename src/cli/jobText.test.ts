/** A job, and the list of them, as a terminal shows them, line by line. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Job, JobList } from '../core/job/api.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { countingOrigin, given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { columns, jobListText, jobText } from './jobText.ts';

const folder = scratchFolder();
let bare: Job;
let heard: Job;
let list: JobList;
beforeAll(async () => {
  const jobs = await openStore(`${folder.path}/bench.sqlite`, countingOrigin());
  const { id } = given(await jobs.createJob({ deck: { name: 'studio deck' } }));
  bare = given(await jobs.job(id));
  await jobs.addCapture(id, { document: tiltedSide, station: 'intake', heardAt: '2026-03-04T12:00:00.000Z' });
  await jobs.addCapture(id, { document: straightSide, station: 'tilt', heardAt: '2026-03-04T12:20:00.000Z' });
  heard = given(await jobs.job(id));
  list = { ...(await jobs.jobs()), unreadable: [] } as JobList;
  await jobs.close();
});
afterAll(() => folder.remove());

it('columns are as wide as their widest cell, and a line has nothing behind its last word', () => {
  expect(
    columns([
      ['a', 'bb', 'c'],
      ['aaaa', 'b\nb', ''],
    ]),
  ).toBe('  a     bb   c\n  aaaa  b b');
  expect(columns([])).toBe('');
});

it('a list has a line for each job, and tells of those that cannot be read', () => {
  const [one] = list.jobs;
  const stations = { ...one.stations, intake: 'done', match: 'done', fit: 'now' } as typeof one.stations;
  const aside = { ...one, number: 12, stations, setAside: { at: '', why: 'a test' }, captures: 1 };
  const lines = jobListText({ ...list, jobs: [aside, one] }).split('\n');
  expect(lines[0]).toMatch(/^ {2}no\. {2}title +deck +stations +heard +changed +id$/);
  expect(lines[1]).toMatch(
    /^ {2}12 {3}Job 1 · studio deck {2}studio deck {2}2 of 9 done {2}1 recordings {2}2026-03-0[345] {2}\S+ {2}set aside: a test$/,
  );
  expect(lines[2]).toMatch(
    /^ {2}1 {4}Job 1 · studio deck {2}studio deck {2}0 of 9 done {2}2 recordings {2}2026-03-0[345] {2}\S+$/,
  );
  expect(lines.slice(3)).toEqual(['']);
  const lost = [
    { id: 'x', number: 7, why: 'half a page' },
    { id: 'y', number: null, why: 'nothing there' },
  ];
  const told = '  7  cannot be read: half a page (id x)\n  ?  cannot be read: nothing there (id y)\n';
  expect(jobListText({ ...list, unreadable: lost })).toBe(`${jobListText(list)}${told}`);
  expect(jobListText({ ...list, jobs: [], unreadable: lost })).toBe(told);
  expect(jobListText({ ...list, jobs: [] })).toBe('There are no jobs yet.\n');
  expect(jobListText({ ...list, jobs: [] }, 'None.')).toBe('None.\n');
});

it('a job of which nothing is known has its head and its stations', () => {
  const job = { ...bare, title: 'A\nB', customer: '', id: 'id-7' };
  const [head, stations, ...rest] = jobText(job, false).split('\n\n');
  expect(head).toBe('A B\n  deck: studio deck\n  id: id-7');
  expect(stations).toBe(
    [
      'stations',
      ...['  Intake     –', '  Match      –', '  Fit        –', '  Weigh      –', '  Place      –', '  Height     –'],
      ...['  Tilt       –', '  Run        –', '  Hand over  –', ''],
    ].join('\n'),
  );
  expect(rest).toEqual([]);
});

it('a job tells its owner, how its stations stand and why one is to be checked again', () => {
  const stations = {
    ...bare.stations,
    intake: { ...bare.stations.intake, status: 'done' },
    match: { ...bare.stations.match, status: 'now' },
    tilt: { ...bare.stations.tilt, status: 'stale', staleBecause: ['the first', 'the last'] },
  } as Job['stations'];
  const [head, told] = jobText({ ...bare, customer: 'C-\n9', stations }, false).split('\n\n');
  expect(head.split('\n').slice(0, 3)).toEqual([bare.title, '  deck: studio deck', '  owner: C- 9']);
  expect(told).toMatch(/\n {2}Intake +done\n {2}Match +begun\n {2}Fit +–\n/);
  expect(told).toMatch(/\n {2}Tilt +check again {2}the last\n/);
});

it('a job tells its recordings, the figures of the last one, before and after, and what was advised', () => {
  const text = jobText(heard, false);
  const [, , recordings, figures, pairs, advice] = text.split('\n\n');
  expect(recordings.split('\n')).toEqual([
    'recordings',
    expect.stringMatching(/^ {2}2026-03-0[345] \d\d:\d\d {2}side-a\.wav {2}Intake {2}as received {4}id-\d+$/),
    expect.stringMatching(/^ {2}2026-03-0[345] \d\d:\d\d {2}side-b\.wav {2}Tilt {4}after {10}id-\d+$/),
  ]);
  expect(figures).toMatch(/^figures of side-b\.wav\n {2}Separation, left into right/);
  expect(pairs.split('\n').slice(0, 2)).toEqual([
    'before and after',
    expect.stringMatching(/^ {2}figure +before +after +now$/),
  ]);
  expect(pairs).toMatch(/\n {2}Separation, left into right +30\.30 ± 0\.10 dB +27\.95 ± 0\.10 dB +adjust\n/);
  expect(advice.split('\n')).toEqual([
    'advice',
    '  Turn the cartridge anticlockwise, seen from its face, by 0.9°. (not noted whether done)',
    '    Separation, left into right: predicted 27.9 dB, measured 27.95 ± 0.15 dB, as predicted',
    '    Separation, right into left: predicted 27.9 dB, measured 27.20 ± 0.15 dB, otherwise',
    '',
  ]);
  expect(text).not.toContain('\u001b');
  expect(jobText(heard, true)).toContain('\u001b[33madjust');
});

it('advice says whether it was done, and what was not measured; a figure of one channel says which', () => {
  const [entry] = heard.advice;
  const check = { ...entry.checks[0], measured: null, uncertainty: null, came: 'not-measured' };
  const advice = [
    { ...entry, outcome: { ...entry.outcome, did: 'done' }, checks: [check] },
    { ...entry, outcome: { ...entry.outcome, did: 'not-done' }, checks: [] },
  ] as unknown as Job['advice'];
  const [pair] = heard.beforeAfter;
  const beforeAfter = [{ ...pair, quantity: 'hum', channel: 'left' as const }];
  const text = jobText({ ...heard, advice, beforeAfter }, false);
  expect(text).toContain(
    'by 0.9°. (done)\n    Separation, left into right: predicted 27.9 dB, not measured, not measured\n',
  );
  expect(text).toMatch(/by 0\.9°\. \(not done\)\n$/);
  expect(text).toMatch(/\n {2}Hum[^\n]* \(left\) /);
});
