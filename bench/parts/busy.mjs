// Processor time of a program and of all it started, by the names of its threads; only where /proc is.
import { readdirSync, readFileSync } from 'node:fs';

const TICKS_PER_S = 100;
const LOOK_MS = 250;

/** Name, parent and processor time, s, as a stat file of /proc tells them. */
function told(path) {
  const stat = readFileSync(path, 'latin1');
  const end = stat.lastIndexOf(')');
  const fields = stat.slice(end + 2).split(' ');
  return {
    name: stat.slice(stat.indexOf('(') + 1, end).replace(/\d+$/, ''),
    parent: Number(fields[1]),
    seconds: (Number(fields[11]) + Number(fields[12])) / TICKS_PER_S,
  };
}

function tellIfThere(path) {
  try {
    return told(path);
  } catch {
    // it has ended meanwhile
    return null;
  }
}

function namesIn(folder) {
  try {
    return readdirSync(folder).filter((name) => /^\d+$/.test(name));
  } catch {
    return [];
  }
}

/** The parent of every process. */
function allParents() {
  const parents = new Map();
  for (const name of namesIn('/proc')) {
    const found = tellIfThere(`/proc/${name}/stat`);
    if (found !== null) parents.set(Number(name), found.parent);
  }
  return parents;
}

export const childrenOf = (pid) => [...allParents()].filter(([, parent]) => parent === pid).map(([child]) => child);

/** Of every thread that runs: its own name, and the seconds that it has run. */
export function busyThreads(pid) {
  const parents = allParents();
  const isOurs = (one) => one === pid || (parents.has(one) && parents.get(one) > 1 && isOurs(parents.get(one)));
  const threads = new Map();
  for (const one of [...parents.keys()].filter(isOurs)) {
    for (const task of namesIn(`/proc/${one}/task`)) {
      const found = tellIfThere(`/proc/${one}/task/${task}/stat`);
      if (found !== null) threads.set(task, found);
    }
  }
  return threads;
}

/** The same by name. */
export function busyByName(pid) {
  const names = new Map();
  for (const { name, seconds } of busyThreads(pid).values()) names.set(name, (names.get(name) ?? 0) + seconds);
  return names;
}

/** Looks four times a second, because a thread that has ended tells nothing; `stop` gives what was run since, by name, largest first. */
export function watchBusy(pid) {
  const before = busyThreads(pid);
  const last = new Map();
  const look = () => {
    for (const [task, found] of busyThreads(pid)) last.set(task, found);
  };
  const timer = setInterval(look, LOOK_MS);
  return {
    stop() {
      clearInterval(timer);
      look();
      const names = new Map();
      let total = 0;
      for (const [task, { name, seconds }] of last) {
        const own = seconds - (before.get(task)?.seconds ?? 0);
        names.set(name, (names.get(name) ?? 0) + own);
        total += own;
      }
      return { total, byName: [...names].sort((a, b) => b[1] - a[1]) };
    },
  };
}
