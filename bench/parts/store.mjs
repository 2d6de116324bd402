// Part `store`: lists and searches over 10,000 jobs, on both databases.
import { runBundledText } from '../bundled.mjs';

const COUNT = 10_000;

export async function* store() {
  const lines = (await runBundledText('src/store/manyJobs.child.ts', [String(COUNT)])).trim().split('\n').slice(1);
  const rows = lines.map((line) => /^(.*?)\s{2,}([\d.]+)\s+([\d.]+)$/.exec(line)?.slice(1)).filter(Boolean);
  if (rows.length === 0) throw new Error('the store told no times');
  const worst = (column) => Math.max(...rows.map((row) => Number(row[column])));
  yield {
    what: `${COUNT} jobs: the slowest of ${rows.length} lists and searches`,
    value: `SQLite ${worst(1).toFixed(0)} ms, PostgreSQL ${worst(2).toFixed(0)} ms`,
    aim: 'under 100 ms',
  };
}
