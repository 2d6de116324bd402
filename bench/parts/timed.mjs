// Runs a command and tells what it took.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

const TICKS_PER_S = 100;
const LOOK_MS = 50;

/** Largest resident memory, MB, and processor time of all its threads, s, so far; only where /proc is. */
function used(pid) {
  try {
    const megabytes = Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'latin1'))?.[1] ?? 0) / 1024;
    const fields = readFileSync(`/proc/${pid}/stat`, 'latin1').split(') ')[1].split(' ');
    return { megabytes, busy: (Number(fields[11]) + Number(fields[12])) / TICKS_PER_S };
  } catch {
    return { megabytes: 0, busy: 0 };
  }
}

/** Resolves with seconds, memory and processor time (looked at every 50 ms; 0 where the system does not tell). */
export function timed(command, args) {
  return new Promise((resolve, reject) => {
    const began = process.hrtime.bigint();
    const child = spawn(command, args, { stdio: ['ignore', 'ignore', 'pipe'] });
    let megabytes = 0;
    let busy = 0;
    let errors = '';
    child.stderr.on('data', (text) => {
      errors = (errors + text).slice(-2000);
    });
    const poll = setInterval(() => {
      const now = used(child.pid);
      megabytes = Math.max(megabytes, now.megabytes);
      busy = Math.max(busy, now.busy);
    }, LOOK_MS);
    child.on('error', reject);
    child.on('close', (code) => {
      clearInterval(poll);
      const seconds = Number(process.hrtime.bigint() - began) / 1e9;
      if (code === 0) resolve({ seconds, megabytes, busy: existsSync('/proc/self/stat') ? busy : seconds });
      else reject(new Error(`${command} ended with ${code}: ${errors}`));
    });
  });
}

export const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
