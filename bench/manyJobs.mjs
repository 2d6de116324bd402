// `node bench/manyJobs.mjs [COUNT]`: lists, pages and searches in a store of 100,000 jobs, on SQLite and on PostgreSQL. Prints.
import { runBundled } from './bundled.mjs';

process.exitCode = await runBundled('bench/manyJobs.child.ts', process.argv.slice(2));
