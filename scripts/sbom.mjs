// `npm run sbom`: a CycloneDX bill of materials of what a user gets, to standard output. npm makes it of everything that the lock file
// names, and what ships is picked from it: left to `--omit dev`, npm 11 drops packages that ship (zod and eleven others here). The
// rest is asked for by name, so that a production environment does not leave it out either.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { shipped } from './notices.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const made = spawnSync('npm', ['sbom', '--include', 'dev', '--sbom-format', 'cyclonedx', '--package-lock-only'], {
  cwd: root,
  encoding: 'utf8',
  maxBuffer: 1 << 26,
  stdio: ['ignore', 'pipe', 'inherit'],
});
if (made.status !== 0) process.exit(made.status ?? 1);
const bill = JSON.parse(made.stdout);
const ships = new Set(shipped().map(({ name, version }) => `${name}@${version}`));
const components = bill.components.filter(({ group, name, version }) =>
  ships.has(`${group ? `${group}/` : ''}${name}@${version}`),
);
const refs = new Set([bill.metadata.component['bom-ref'], ...components.map((one) => one['bom-ref'])]);
const dependencies = bill.dependencies
  .filter(({ ref }) => refs.has(ref))
  .map(({ ref, dependsOn }) => ({ ref, dependsOn: (dependsOn ?? []).filter((one) => refs.has(one)) }));
console.log(JSON.stringify({ ...bill, components, dependencies }, null, 2));
