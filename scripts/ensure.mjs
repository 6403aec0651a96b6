// Fetches the packages when they are missing or out of date, beside those that are there: what works goes on working
// until what replaces it is whole. Node built-ins only.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { PlainError } from './plain-error.mjs';
import { npmCommand } from './programs.mjs';

const OLDEST_NODE = [20, 19];
const STAMP = 'node_modules/.installed-for';
/** Folders of this run and of others, by the number of their process. */
const NEXT = '.packages-next-';
const BEFORE = '.packages-before-';

/** @throws {PlainError} under a Node that is too old */
export function checkNode(version = process.versions.node) {
  const [major, minor] = version.split('.').map(Number);
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return;
  throw new PlainError(`Node ${OLDEST_NODE.join('.')} or newer is needed; this is ${version}.`);
}

/** Native parts are bound to the system, not to a version of Node: all use its stable interface, or are programs. */
function wantedPackages() {
  return createHash('sha256')
    .update(readFileSync('package-lock.json'))
    .update(`${process.platform} ${process.arch}`)
    .digest('hex');
}

/** Whether what is installed is what the lock file names. */
const arePackagesThere = (wanted) => existsSync(STAMP) && readFileSync(STAMP, 'utf8') === wanted;

/** Whether a package may be missing: it is for another system, or for another C library of this one. */
const isForOthers = ({ optional = false, os = [], cpu = [], libc }) =>
  optional && (libc !== undefined || !os.includes(process.platform) || !cpu.includes(process.arch));

/** Whether npm was run by hand, to its end, for the lock file as it is: it keeps a record of what it put there. */
function areInstalledByHand() {
  const record = 'node_modules/.package-lock.json';
  if (!existsSync(record)) return false;
  const packagesOf = (file) => JSON.parse(readFileSync(file, 'utf8')).packages;
  const there = packagesOf(record);
  return Object.entries(packagesOf('package-lock.json')).every(([place, wanted]) => {
    const found = there[place];
    if (place === '') return true;
    return found
      ? found.version === wanted.version && found.integrity === wanted.integrity
      : isForOthers(wanted);
  });
}

const isRunning = (pid) => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
};

/** What runs left that were ended in the middle: the packages before, where nothing has taken their place, and rubbish. */
function tidy() {
  const left = (prefix) =>
    readdirSync('.').filter(
      (name) => name.startsWith(prefix) && !isRunning(Number(name.slice(prefix.length))),
    );
  const [before] = left(BEFORE);
  if (before && !existsSync('node_modules')) renameSync(before, 'node_modules');
  for (const name of [...left(NEXT), ...left(BEFORE)]) rmSync(name, { recursive: true, force: true });
}

function fetchInto(folder, isQuiet) {
  const command = npmCommand(['ci', '--no-audit', '--no-fund']);
  if (!command) throw new PlainError('npm was not found beside Node: install Node together with npm.');
  for (const name of ['package.json', 'package-lock.json', '.npmrc']) copyFileSync(name, `${folder}/${name}`);
  const [program, ...args] = command;
  const { status, stderr } = spawnSync(program, args, {
    cwd: folder,
    encoding: 'utf8',
    stdio: ['ignore', isQuiet ? 'ignore' : 'inherit', 'pipe'],
  });
  if (status === 0) return;
  const code = /^npm \S+ code (\w+)/m.exec(stderr)?.[1];
  throw new PlainError(
    `The packages could not be fetched${code ? ` (${code})` : ''}: that needs the npm registry, once; what was there is as it was.`,
  );
}

/** Puts the fetched packages in the place of those before, which go only then. */
function exchange(next, before) {
  const isReplacing = existsSync('node_modules');
  if (isReplacing) renameSync('node_modules', before);
  try {
    renameSync(next, 'node_modules');
  } catch (error) {
    if (isReplacing) renameSync(before, 'node_modules');
    throw error;
  }
}

function install(wanted, isQuiet) {
  const [next, before] = [`${NEXT}${process.pid}`, `${BEFORE}${process.pid}`];
  tidy();
  mkdirSync(next);
  try {
    fetchInto(next, isQuiet);
    writeFileSync(`${next}/${STAMP}`, wanted);
    if (!arePackagesThere(wanted)) exchange(`${next}/node_modules`, before);
  } finally {
    for (const folder of [next, before]) rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * @param {boolean} [isQuiet] print nothing but what is wrong
 * @throws {PlainError} when Node is too old, the folder cannot be written, or the packages cannot be fetched
 */
export function ensurePackages(isQuiet = false) {
  checkNode();
  const wanted = wantedPackages();
  if (arePackagesThere(wanted) || areInstalledByHand()) return;
  if (!isQuiet) console.log('Fetching the packages ...');
  try {
    install(wanted, isQuiet);
  } catch (error) {
    if (error instanceof PlainError) throw error;
    throw new PlainError(
      `The packages could not be put into this folder (${error.code ?? error.message}): it must be one that you may write to.`,
      { cause: error },
    );
  }
}
