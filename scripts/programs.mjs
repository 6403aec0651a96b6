// Command lines of other programs: a path and its arguments, never a shell, never a script of node_modules/.bin, so
// that they are the same on every system. Node built-ins only.
import { existsSync, readFileSync } from 'node:fs';
import { posix, win32 } from 'node:path';

/** The packages whose main program has another name. */
const PACKAGE_OF = { tsc: 'typescript-native', wtr: '@web/test-runner' };

/**
 * A tool of node_modules, run by this Node.
 *
 * @returns {[string, ...string[]]} the program and its arguments
 */
export function toolCommand(name, args = [], root = '.') {
  const folder = `${root}/node_modules/${PACKAGE_OF[name] ?? name}`;
  const { bin } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  return [process.execPath, `${folder}/${typeof bin === 'string' ? bin : bin[name]}`, ...args];
}

/**
 * npm, as the script of its own that Node runs: the one that runs this, or the one beside Node.
 *
 * @param {{platform?: string, execPath?: string, npmPath?: string, exists?: (path: string) => boolean}} where
 * @returns {[string, ...string[]] | undefined} undefined where there is none
 */
export function npmCommand(args, where = {}) {
  const {
    platform = process.platform,
    execPath = process.execPath,
    npmPath = process.env.npm_execpath,
    exists = existsSync,
  } = where;
  const { dirname, join } = platform === 'win32' ? win32 : posix;
  const beside = dirname(execPath);
  const script = [
    ...(npmPath && /npm-cli\.c?js$/.test(npmPath) ? [npmPath] : []),
    join(beside, 'node_modules', 'npm', 'bin', 'npm-cli.js'),
    join(beside, '..', 'lib', 'node_modules', 'npm', 'bin', 'npm-cli.js'),
    ...(platform === 'linux' ? ['/usr/share/nodejs/npm/bin/npm-cli.js'] : []),
  ].find((path) => exists(path));
  return script && [execPath, script, ...args];
}

/**
 * What opens an address in the browser, where somebody sits before a display.
 *
 * @returns {[string, ...string[]] | undefined} undefined in CI, and where there is no display
 */
export function openerCommand(address, platform = process.platform, env = process.env) {
  if (env.CI) return undefined;
  if (platform === 'darwin') return ['/usr/bin/open', address];
  if (platform === 'win32')
    return [
      win32.join(env.SystemRoot ?? 'C:\\Windows', 'System32', 'rundll32.exe'),
      'url.dll,FileProtocolHandler',
      address,
    ];
  return env.DISPLAY || env.WAYLAND_DISPLAY ? ['xdg-open', address] : undefined;
}
