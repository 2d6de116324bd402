// Part `store`: lists and searches over 10,000 jobs, on both databases.
import { runBundledText } from '../bundled.mjs';

const COUNT = 10_000;

export async function* store() {
  const lines = (await runBundledText('bench/manyJobs.child.ts', [String(COUNT)])).split('\n');
  // "SQLite      first page of jobs     1.2 (1.1)": by the clock, of the processor
  const rows = lines.flatMap((line) => {
    const [, engine, what, ms] = /^(SQLite|PostgreSQL)\s+(.*?)\s{2,}([\d.]+) \([\d.]+\)$/.exec(line) ?? [];
    return engine === undefined ? [] : [{ engine, what, ms: Number(ms) }];
  });
  const worst = (engine) => {
    const of = rows.filter((row) => row.engine === engine);
    if (of.length === 0) throw new Error(`the store told no times of ${engine}`);
    const slowest = of.reduce((a, b) => (b.ms > a.ms ? b : a));
    return `${engine} ${slowest.ms.toFixed(0)} ms (${slowest.what}, of ${of.length})`;
  };
  yield {
    what: `${COUNT} jobs: the slowest list or search`,
    value: `${worst('SQLite')}, ${worst('PostgreSQL')}`,
    aim: 'under 100 ms',
  };
}
