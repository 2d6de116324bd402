// `node bench/manyReadings.mjs [COUNT]`: charts, history and alarms of chains with very many readings, on SQLite and on PostgreSQL. Prints.
import { runBundled } from './bundled.mjs';

process.exitCode = await runBundled('bench/manyReadings.child.ts', process.argv.slice(2));
