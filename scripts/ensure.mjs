// Installs the packages when they are missing or out of date. Node built-ins only.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

const OLDEST_NODE = [20, 19];
const STAMP = 'node_modules/.installed-for';

const [major, minor] = process.versions.node.split('.').map(Number);
if (major < OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor < OLDEST_NODE[1])) {
  console.error(`Node ${OLDEST_NODE.join('.')} or newer is needed; this is ${process.versions.node}.`);
  process.exit(1);
}

const wanted = createHash('sha256')
  .update(readFileSync('package-lock.json'))
  .update(`${process.versions.modules} ${process.platform} ${process.arch}`)
  .digest('hex');
const installed = existsSync(STAMP) ? readFileSync(STAMP, 'utf8') : '';

if (installed !== wanted) {
  const quiet = process.argv.includes('--quiet');
  if (!quiet) console.log('Installing packages ...');
  const npm = process.env.npm_execpath;
  const [command, args] = npm ? [process.execPath, [npm, 'ci']] : ['npm', ['ci']];
  try {
    execFileSync(command, args, { stdio: quiet ? ['ignore', 'ignore', 'inherit'] : 'inherit' });
  } catch {
    console.error(
      'The packages could not be installed: the first run needs the npm registry, later ones do not.',
    );
    process.exit(1);
  }
  writeFileSync(STAMP, wanted);
}
