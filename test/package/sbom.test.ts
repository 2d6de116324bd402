/** The bill of materials names what a user gets, no more and no less than the notices do. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

it('npm run sbom: CycloneDX, every shipped package with its version and where it comes from', () => {
  const text = execFileSync('npm', ['run', '--silent', 'sbom'], {
    encoding: 'utf8',
    env: { ...process.env, NODE_ENV: 'production' },
  });
  const bill = JSON.parse(text);
  expect(bill.bomFormat).toBe('CycloneDX');
  const listed: string[] = bill.components.map(({ purl }: { purl: string }) => decodeURIComponent(purl));
  const rows = [...readFileSync('docs/third-party.md', 'utf8').matchAll(/^\| (\S+) \| (\d\S*) \|/gm)];
  expect(rows.length).toBeGreaterThan(15);
  expect(listed.map((one) => one.replace(/\?.*$/, '')).toSorted()).toEqual(
    rows.map(([, name, version]) => `pkg:npm/${name}@${version}`).toSorted(),
  );
});
