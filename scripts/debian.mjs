// Programs that the tests need, from the distribution.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const has = (command) => spawnSync('which', [command], { stdio: 'ignore' }).status === 0;

/** How to become root without being asked, or null. */
function rootPrefix() {
  if (process.getuid?.() === 0) return [];
  return has('sudo') && spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status === 0 ? ['sudo', '-n'] : null;
}

/** @returns whether the package is installed now */
export function installFromDebian(name) {
  if (process.platform !== 'linux' || !has('apt-get')) return false;
  const prefix = rootPrefix();
  if (prefix === null) return false;
  console.log(`Installing the distribution's ${name} (apt-get install ${name}).`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const run = (...args) => {
    const [command, ...rest] = [...prefix, ...args];
    return spawnSync(command, rest, { stdio: ['ignore', 'ignore', 'inherit'], env }).status === 0;
  };
  run('apt-get', '-q', 'update');
  return run('apt-get', '-q', 'install', '-y', '--no-install-recommends', name);
}

/** What a check asks of another program: `try` succeeds where it is there. */
const TOOLS = [
  {
    needs: 'pdftotext, which reads printed reports back',
    try: ['pdftotext', '-v'],
    debian: 'poppler-utils',
    brew: 'poppler',
  },
  {
    needs: 'pdftoppm, which draws templates as a printer would',
    try: ['pdftoppm', '-v'],
    debian: 'poppler-utils',
    brew: 'poppler',
  },
  {
    needs: 'ngspice, which works coil and load out anew',
    try: ['ngspice', '--version'],
    debian: 'ngspice',
    brew: 'ngspice',
  },
  {
    needs: 'Python with SciPy, which works filters, windows and optima out anew',
    try: ['python3', '-c', 'import scipy'],
    debian: 'python3-scipy',
    brew: 'scipy',
    // Debian's own Python has it, whatever other one comes first in the path
    or: ['/usr/bin/python3', '-c', 'import scipy'],
  },
  {
    needs: 'PostgreSQL, of which the tests start one of their own in a temporary folder',
    try: ['sh', '-c', 'ls /usr/lib/postgresql/*/bin/initdb'],
    debian: 'postgresql',
    brew: 'postgresql',
    or: ['initdb', '--version'],
    before: noServerForAll,
  },
  {
    needs: 'PulseAudio, whose sound card that is not there live input is tested with',
    try: ['pulseaudio', '--version'],
    debian: 'pulseaudio',
    only: 'linux',
  },
  {
    needs: 'pactl and paplay, which drive that sound card',
    try: ['sh', '-c', 'pactl --version && paplay --version'],
    debian: 'pulseaudio-utils',
    only: 'linux',
  },
  {
    needs: 'the way from ALSA to PulseAudio',
    try: ['sh', '-c', 'ls /usr/lib/*/alsa-lib/libasound_module_pcm_pulse.so'],
    debian: 'libasound2-plugins',
    only: 'linux',
  },
  { needs: 'arecord, a recorder', try: ['arecord', '--version'], debian: 'alsa-utils', only: 'linux' },
  { needs: 'FFmpeg, a recorder', try: ['ffmpeg', '-version'], debian: 'ffmpeg', only: 'linux' },
  { needs: 'SoX, a recorder', try: ['sox', '--version'], debian: 'sox', only: 'linux' },
  {
    needs: "SoX's way to ALSA",
    try: ['sh', '-c', 'sox --help | grep -qw alsa'],
    debian: 'libsox-fmt-alsa',
    only: 'linux',
  },
];

/** Debian starts a server for all with the package unless it is told before that none is wanted. */
function noServerForAll() {
  const file = '/etc/postgresql-common/createcluster.conf';
  if (!installFromDebian('postgresql-common')) return;
  const text = readFileSync(file, 'utf8');
  if (/^\s*create_main_cluster\s*=\s*false/m.test(text)) return;
  const prefix = rootPrefix() ?? [];
  const [command, ...rest] = [...prefix, 'tee', '-a', file];
  spawnSync(command, rest, { input: 'create_main_cluster = false\n', stdio: ['pipe', 'ignore', 'inherit'] });
}

const runs = ([command, ...args]) => spawnSync(command, args, { stdio: 'ignore' }).status === 0;
const isThere = (tool) => runs(tool.try) || (tool.or !== undefined && runs(tool.or));

/** @throws Error naming what is missing and how to get it */
export function ensureTools() {
  for (const tool of TOOLS) {
    if (tool.only !== undefined && tool.only !== process.platform) continue;
    if (!isThere(tool)) tool.before?.();
    if (isThere(tool) || (installFromDebian(tool.debian) && isThere(tool))) continue;
    throw new Error(
      `The tests need ${tool.needs}: install it ('sudo apt-get install ${tool.debian}', on macOS 'brew install ${tool.brew}').`,
    );
  }
}
