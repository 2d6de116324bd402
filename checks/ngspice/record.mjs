// Writes a netlist for each network of networks.json, runs ngspice on it and keeps what it printed.
// From the repository: node checks/ngspice/record.mjs
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const { frequenciesHz, networks } = JSON.parse(readFileSync(new URL('networks.json', import.meta.url), 'utf8'));

/** The transformer is ideal: the secondary's voltage is n times the primary's, its current is mirrored n times into it. */
function netlist({ name, coilResistanceOhm, coilInductanceMh, loadCapacitancePf, loadResistanceOhm, stepUp }) {
  const transformer =
    stepUp === 1 ? ['Vj p out DC 0'] : [`Es s 0 p 0 ${stepUp}`, 'Vs s out DC 0', `Fp p 0 Vs ${stepUp}`];
  return `* ${name}: coil, cable and load; 300 K
.options temp=26.85
V1 a 0 DC 0 AC 1
R1 a b ${coilResistanceOhm}
L1 b p ${coilInductanceMh}m
${transformer.join('\n')}
C1 out 0 ${loadCapacitancePf}p
RL out 0 ${loadResistanceOhm}
.control
set noaskquit
set numdgt=12
foreach ff ${frequenciesHz.join(' ')}
  ac lin 1 $ff $ff
  print vdb(out) vp(out)
end
ac lin 199901 100 100000
meas ac pk MAX vdb(out)
noise v(out) V1 lin 19981 20 20000
print onoise_total
quit
.endc
.end
`;
}

const here = dirname(fileURLToPath(import.meta.url));
for (const network of networks) {
  const file = join(here, `${network.name}.cir`);
  writeFileSync(file, netlist(network));
  const text = execFileSync('ngspice', ['-b', file], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
  // times, memory and file names, which differ from machine to machine, are left out
  const kept = text.split('\n').filter((line) => /^(vdb|vp|pk|onoise_total)\b/.test(line));
  writeFileSync(join(here, `${network.name}.out`), `${kept.join('\n')}\n`);
}
