// Writes docs/third-party.md: every package that reaches a user, with its licence in full. `--check` only compares.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const page = join(root, 'docs', 'third-party.md');

/** Packages whose terms ask for more than keeping their notice: what a user may do with them here. */
const asked = {
  'codec-parser':
    'Reads the frames of FLAC files. It is bundled into the page unchanged; you may replace it by another version: change ' +
    'the version in `package.json` and run `npm run build`. Its source is the package itself, under the name and version above.',
  '@fontsource-variable/atkinson-hyperlegible-next':
    'The letters of the page and of the reports. The font is not sold by itself.',
};

/** Name, version and folder of every package that the lock file gives to users, sorted by name. */
export function shipped() {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  return Object.entries(lock.packages)
    .filter(([path, entry]) => path !== '' && !entry.dev && !entry.devOptional && !entry.optional)
    .map(([path, { version, license }]) => ({
      name: path.replace(/^.*node_modules\//, ''),
      version,
      license: typeof license === 'string' ? license : null,
      folder: join(root, path),
    }))
    .sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

function licenceText(folder) {
  if (!existsSync(folder)) return null;
  const file = readdirSync(folder).find((name) => /^(licen[cs]e|copying)/i.test(name));
  return file === undefined ? null : readFileSync(join(folder, file), 'utf8').replaceAll('\r\n', '\n').trim();
}

function statedLicence({ license, folder }) {
  if (license !== null) return license;
  const stated = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')).license;
  return typeof stated === 'string' ? stated : (stated?.type ?? 'not stated');
}

/** The page as it must be. Equal texts stand once. */
export function noticesPage() {
  const packages = shipped().map((one) => ({ ...one, licence: statedLicence(one), text: licenceText(one.folder) }));
  const texts = new Map();
  for (const { name, text } of packages) if (text !== null) texts.set(text, [...(texts.get(text) ?? []), name]);
  const rows = packages.map(({ name, version, licence }) => `| ${name} | ${version} | ${licence} |`);
  const notes = packages.filter(({ name }) => name in asked).map(({ name }) => `**${name}.** ${asked[name]}`);
  const blocks = [...texts].map(
    ([text, names]) => `### ${names.join(', ')}\n\n\`\`\`\n${text.replaceAll('```', "'''")}\n\`\`\``,
  );
  return [
    '# What others wrote',
    'Platterside is under the MIT licence (file `LICENSE`). It is built from these packages. This page is made by `npm run notices`.',
    `| package | version | licence |\n| --- | --- | --- |\n${rows.join('\n')}`,
    ...notes,
    '## Licences in full',
    'A package without a licence file of its own is named only in the table above.',
    ...blocks,
  ]
    .join('\n\n')
    .concat('\n');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const text = noticesPage();
  if (process.argv.includes('--check')) {
    if (!existsSync(page) || readFileSync(page, 'utf8') !== text) {
      console.error('docs/third-party.md is not what the lock file says: run npm run notices');
      process.exit(1);
    }
  } else writeFileSync(page, text);
}
