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

export async function* live({ root }) {
  for (const program of ['live.mjs', 'liveBrowser.mjs']) {
    for (const line of await lines(join(root, 'bench', program))) {
      const [, value, aim] = /^(.*?)(?: \((aim[^)]*)\))?$/.exec(line.trim());
      yield {
        what: program === 'live.mjs' ? 'the engine alone' : 'in a browser',
        value,
        aim: aim?.replace(/^aim:? ?/, ''),
      };
    }
  }
}
