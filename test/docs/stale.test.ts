import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { RECHECK_CLASSES } from '../../src/core/advise/recheck.ts';
import { moveNames } from '../../src/core/job/moves.ts';
import { moveEffects } from '../../src/core/job/stale.ts';
import { recheckQuantities } from '../../src/core/job/stations/run/limits.ts';

it('docs/store.md lists every move with the stations it makes stale', () => {
  const text = readFileSync(fileURLToPath(new URL('../../docs/store.md', import.meta.url)), 'utf8');
  const section = text.split('## What a move makes stale')[1].split('\n## ')[0];
  const written = [...section.matchAll(/^\| `([a-z-]+)` \| ([a-z, -]+) \|$/gm)].map(([, move, stations]) => [
    move,
    stations,
  ]);
  const coded = moveNames.map((move) => [move, Object.keys(moveEffects[move].makesStale).join(', ')]);
  expect(written).toEqual(coded);
});

it('docs/store.md lists every tolerance of a change elsewhere', () => {
  const text = readFileSync(fileURLToPath(new URL('../../docs/store.md', import.meta.url)), 'utf8');
  const section = text.split('## What a move makes stale')[1].split('\n## ')[0];
  const written = [
    ...section.matchAll(/^\| `([a-z-]+)` \| .* \| ([\d.]+) ?(mN|mm|°|) \| ([\d.]+) \| ([\d.]+) \|$/gm),
  ].map(([, name, most, unit, studio, archive]) => [
    name,
    Number(most),
    unit === '°' ? 'deg' : unit,
    Number(studio),
    Number(archive),
  ]);
  const { shop, studio, archive } = RECHECK_CLASSES;
  const rounded = (most: number): number => Number(most.toFixed(6));
  const coded = recheckQuantities.map((name) => [
    name,
    rounded(shop[name].most),
    shop[name].unit,
    rounded(studio[name].most),
    rounded(archive[name].most),
  ]);
  expect(written.sort()).toEqual(coded.sort());
});
