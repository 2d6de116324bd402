// Part `live`: what listening costs, in a browser and in the engine alone. Programs of their own print it.
import { spawn } from 'node:child_process';
import { join } from 'node:path';

function lines(program) {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program], { stdio: ['ignore', 'pipe', 'inherit'] });
    let said = '';
    child.stdout.on('data', (text) => {
      said += text;
    });
    child.on('error', reject);
    child.on('close', (code) =>
      code === 0 ? resolve(said.trim().split('\n')) : reject(new Error(`${program} ended with ${code}`)),
    );
  });
}

/** "what (aim: so much): value"; headings and the threads of a browser are left to the program's own output. */
const told = (line) => /^(?!by thread)(.*?)(?: \(aim:? ([^)]*)\))?: (.+)$/.exec(line.trim());

export async function* live({ root }) {
  for (const [program, where] of [
    ['live.mjs', 'live, the engine alone'],
    ['liveBrowser.mjs', 'live, in a browser'],
  ]) {
    for (const line of await lines(join(root, 'bench', program))) {
      const [, what, aim, value] = told(line) ?? [];
      if (value !== undefined) yield { what: `${where}: ${what}`, value, aim };
    }
  }
}
