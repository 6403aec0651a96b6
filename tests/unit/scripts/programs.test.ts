import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { npmCommand, openerCommand, toolCommand } from '../../../scripts/programs.mjs';

const ADDRESS = 'http://localhost:4600/';

describe('command lines of other programs', () => {
  it('run every tool of the whole check by Node and a script of its package, which is there', () => {
    for (const tool of ['tsc', 'vite', 'vitest', 'wtr', 'oxlint', 'oxfmt', 'knip']) {
      const [program, script, ...args] = toolCommand(tool, ['--some', 'thing']);
      expect(program).toBe(process.execPath);
      expect(script).toMatch(/^\.\/node_modules\/(?!\.bin)/);
      expect(existsSync(script!), script).toBe(true);
      expect(args).toEqual(['--some', 'thing']);
    }
  });

  it('run npm by the script that runs this, when that is npm’s own', () => {
    const where = { execPath: '/usr/bin/node', npmPath: '/opt/npm/bin/npm-cli.js', exists: () => true };
    expect(npmCommand(['ci'], where)).toEqual(['/usr/bin/node', '/opt/npm/bin/npm-cli.js', 'ci']);
  });

  it('find npm beside Node on each system, also where another tool runs this', () => {
    const found = (platform: string, execPath: string, npmPath: string | undefined, script: string) =>
      expect(
        npmCommand(['ci'], { platform, execPath, npmPath, exists: (path) => path === script }),
        platform,
      ).toEqual([execPath, script, 'ci']);
    const windows = 'C:\\Program Files\\nodejs';
    found('win32', `${windows}\\node.exe`, undefined, `${windows}\\node_modules\\npm\\bin\\npm-cli.js`);
    found('darwin', '/usr/local/bin/node', undefined, '/usr/local/lib/node_modules/npm/bin/npm-cli.js');
    found('linux', '/usr/bin/node', '/opt/pnpm/bin/pnpm.cjs', '/usr/lib/node_modules/npm/bin/npm-cli.js');
    found('linux', '/usr/bin/node', undefined, '/usr/share/nodejs/npm/bin/npm-cli.js');
    expect(
      npmCommand(['ci'], { platform: 'linux', exists: () => false, npmPath: undefined }),
    ).toBeUndefined();
  });

  it('open the browser by what each system has for it, without a shell', () => {
    expect(openerCommand(ADDRESS, 'darwin', {})).toEqual(['/usr/bin/open', ADDRESS]);
    expect(openerCommand(ADDRESS, 'win32', { SystemRoot: 'D:\\Windows' })).toEqual([
      'D:\\Windows\\System32\\rundll32.exe',
      'url.dll,FileProtocolHandler',
      ADDRESS,
    ]);
    expect(openerCommand(ADDRESS, 'linux', { DISPLAY: ':0' })).toEqual(['xdg-open', ADDRESS]);
    expect(openerCommand(ADDRESS, 'linux', { WAYLAND_DISPLAY: 'wayland-0' })).toEqual(['xdg-open', ADDRESS]);
  });

  it('open nothing without a display, or in CI', () => {
    expect(openerCommand(ADDRESS, 'linux', {})).toBeUndefined();
    for (const platform of ['linux', 'darwin', 'win32'])
      expect(openerCommand(ADDRESS, platform, { CI: 'true', DISPLAY: ':0' })).toBeUndefined();
  });
});
