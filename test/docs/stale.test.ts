import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { recheckTolerances } from '../../src/core/advise/recheck.ts';
import { moveNames } from '../../src/core/job/moves.ts';
import { moveEffects } from '../../src/core/job/stale.ts';

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
  const written = [...section.matchAll(/^\| `([a-z-]+)` \| .* \| ([\d.]+) ?(mN|mm|°|)\s*\|$/gm)].map(
    ([, name, most, unit]) => [name, Number(most), unit === '°' ? 'deg' : unit],
  );
  const coded = Object.entries(recheckTolerances).map(([name, { most, unit }]) => [
    name,
    Number(most.toFixed(6)),
    unit,
  ]);
  expect(written.sort()).toEqual(coded.sort());
});
