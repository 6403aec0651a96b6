// Packs the package, installs it into an empty folder from the registry as a stranger does, and runs the examples in other
// languages on files that it has written there: npm run examples:others.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isUpToDate } from './built-from.mjs';
import { blocksOf } from './docs/blocks.mjs';
import { READINGS } from './docs.mjs';
import { buildPackage, PACKAGE } from './package.mjs';
import { PlainError, runPlainly } from './plain-error.mjs';
import { npmCommand } from './programs.mjs';

const LANGUAGES = {
  python: { program: 'python3', ending: 'py' },
  r: { program: 'Rscript', ending: 'R' },
};
const blocks = (page) => blocksOf(readFileSync(`docs/site/${page}.md`, 'utf8'));

/** @throws {PlainError} when npm does not do it */
function npm(args, cwd) {
  const [program, ...all] = npmCommand(args);
  const { status, stdout, stderr } = spawnSync(program, all, { cwd, encoding: 'utf8' });
  if (status !== 0) throw new PlainError(`npm ${args[0]} failed: ${stderr}`);
  return stdout;
}

/** Packs the package and installs it into a folder, with all that it names. */
function install(folder) {
  const [{ filename }] = JSON.parse(
    npm(['pack', '--json', '--ignore-scripts', '--pack-destination', folder], PACKAGE),
  );
  writeFileSync(join(folder, 'package.json'), '{ "private": true }');
  npm(['install', '--no-audit', '--no-fund', '--ignore-scripts', `./${filename}`], folder);
}

/** A folder in which the pages' own code has written its files. */
function written() {
  const folder = mkdtempSync(join(tmpdir(), 'hundredths-examples-'));
  install(folder);
  for (const [name, from] of Object.entries(READINGS)) cpSync(from, join(folder, name));
  for (const page of ['files', 'examples']) {
    const code = blocks(page).filter(({ kind }) => kind === 'js');
    writeFileSync(join(folder, `${page}.mjs`), code.map(({ text }) => text).join('\n'));
    const { status, stderr } = spawnSync(process.execPath, [`${page}.mjs`], {
      cwd: folder,
      encoding: 'utf8',
    });
    if (status !== 0) throw new PlainError(`The code of ${page} failed: ${stderr}`);
  }
  return folder;
}

/** @returns {'ran' | 'not here'} @throws {PlainError} when it prints something else */
function runExample({ kind, text }, said, folder) {
  const { program, ending } = LANGUAGES[kind];
  writeFileSync(join(folder, `example.${ending}`), text);
  const { error, status, stdout, stderr } = spawnSync(program, [`example.${ending}`], {
    cwd: folder,
    encoding: 'utf8',
  });
  if (error?.code === 'ENOENT') return 'not here';
  if (status !== 0 || stdout !== said)
    throw new PlainError(
      `${program} printed ${JSON.stringify(stdout || stderr)}, not ${JSON.stringify(said)}.`,
    );
  return 'ran';
}

await runPlainly(async () => {
  if (!isUpToDate(PACKAGE)) await buildPackage();
  const folder = written();
  try {
    const all = blocks('examples');
    const lines = all.flatMap((block, at) =>
      block.kind in LANGUAGES
        ? [`${LANGUAGES[block.kind].program}: ${runExample(block, all[at + 1].text, folder)}`]
        : [],
    );
    console.log(lines.join('; '));
  } finally {
    rmSync(folder, { recursive: true });
  }
  return 0;
});
