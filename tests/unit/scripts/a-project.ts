import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

/** Who may write nothing here, where the tests run as the one who may do everything. */
const NOBODY = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};

/** What npm says and does without a network. */
export const NO_NETWORK = `console.error('npm error code ENOTFOUND'); process.exit(1);`;

interface Options {
  readonly env?: Readonly<Record<string, string>>;
  /** Runs in the process before the command. */
  readonly before?: string;
  readonly isNobody?: boolean;
}

/** A folder with the project's commands and nothing else, with a stand-in for npm. */
export class AProject {
  readonly folder = mkdtempSync(join(tmpdir(), 'hundredths-commands-'));
  private readonly npm = this.path('fake', 'npm-cli.cjs');

  constructor() {
    for (const name of ['scripts', 'package.json', 'package-lock.json', '.npmrc'])
      cpSync(name, this.path(name), { recursive: true });
    this.npmDoes(NO_NETWORK);
  }

  path(...parts: string[]): string {
    return join(this.folder, ...parts);
  }

  /** What npm does from now on, in the folder that it is started in. */
  npmDoes(code: string): void {
    mkdirSync(this.path('fake'), { recursive: true });
    writeFileSync(this.npm, `const fs = require('node:fs');\n${code}`);
  }

  /** Packages that stand for those of an earlier day. */
  putPackages(mark: string): void {
    mkdirSync(this.path('node_modules'), { recursive: true });
    writeFileSync(this.path('node_modules', 'mark.txt'), mark);
  }

  /** The packages of this project, and a page that was built from other sources. */
  putPackagesAndPage(): void {
    symlinkSync(resolve('node_modules'), this.path('node_modules'));
    mkdirSync(this.path('dist'));
    writeFileSync(this.path('dist', 'index.html'), 'An earlier page');
  }

  /** The lock file names a package that is not there. */
  wantAnotherPackage(): void {
    const lock = JSON.parse(readFileSync(this.path('package-lock.json'), 'utf8')) as { packages: object };
    lock.packages = { ...lock.packages, 'node_modules/invented': { version: '1.0.0', integrity: 'none' } };
    writeFileSync(this.path('package-lock.json'), JSON.stringify(lock));
  }

  forbidWriting(): void {
    chmodSync(this.folder, 0o555);
  }

  run(args: readonly string[], { env = {}, before, isNobody = false }: Options = {}) {
    const first = before ? ['--import', `data:text/javascript,${encodeURIComponent(before)}`] : [];
    const { status, stdout, stderr } = spawnSync(process.execPath, [...first, ...args], {
      cwd: this.folder,
      encoding: 'utf8',
      env: { PATH: process.env['PATH'], npm_execpath: this.npm, ...env },
      ...(isNobody ? NOBODY : {}),
    });
    return { code: status, said: stdout, complained: stderr.trim() };
  }

  remove(): void {
    chmodSync(this.folder, 0o755);
    rmSync(this.folder, { recursive: true });
  }
}
