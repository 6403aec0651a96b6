import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freePort } from '../../journeys/started.ts';
import { AProject, NO_NETWORK } from './a-project.ts';

const ENSURE = [
  '--input-type=module',
  '-e',
  `
  import { ensurePackages } from './scripts/ensure.mjs';
  import { runPlainly } from './scripts/plain-error.mjs';
  await runPlainly(() => ensurePackages());`,
];
const GOOD = `fs.mkdirSync('node_modules'); fs.writeFileSync('node_modules/mark.txt', 'new');`;
const NODE_IN_TEN_YEARS = `Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '44.1.0', modules: '400' } });`;
const OLD_NODE = `Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '18.20.4' } });`;
const END_ONCE_OPEN = `const { log } = console; console.log = (text) => { log(text); if (text.includes('is open at')) process.exit(0); };`;
const NOT_FETCHED =
  'The packages could not be fetched (ENOTFOUND): that needs the npm registry, once; what was there is as it was.';

let project: AProject;
beforeEach(() => (project = new AProject()));
afterEach(() => project.remove());

const mark = () => readFileSync(project.path('node_modules', 'mark.txt'), 'utf8');
const rubbish = () => readdirSync(project.folder).filter((name) => name.startsWith('.packages'));

describe('packages', () => {
  it('are fetched once, and not again, whatever Node comes', () => {
    project.npmDoes(GOOD);
    expect(project.run(ENSURE)).toEqual({ code: 0, said: 'Fetching the packages ...\n', complained: '' });
    expect([mark(), rubbish()]).toEqual(['new', []]);
    project.npmDoes(NO_NETWORK);
    for (const before of ['', NODE_IN_TEN_YEARS])
      expect(project.run(ENSURE, { before })).toEqual({ code: 0, said: '', complained: '' });
  });

  it('are not fetched where npm was run by hand for the same lock file, and are where it was for another', () => {
    project.putPackages('by hand');
    const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
      packages: Record<string, { version: string }>;
    };
    const record = (there: object) =>
      writeFileSync(project.path('node_modules', '.package-lock.json'), JSON.stringify({ packages: there }));
    record(packages);
    expect(project.run(ENSURE)).toEqual({ code: 0, said: '', complained: '' });
    record({ ...packages, 'node_modules/lit': { ...packages['node_modules/lit'], version: '0.0.1' } });
    expect(project.run(ENSURE)).toMatchObject({ code: 1, complained: NOT_FETCHED });
    const { 'node_modules/lit': _, ...without } = packages;
    record(without);
    expect(project.run(ENSURE)).toMatchObject({ code: 1, complained: NOT_FETCHED });
  });

  it('take the place of earlier ones only when they are whole', () => {
    project.putPackages('old');
    project.npmDoes(`${GOOD} ${NO_NETWORK}`);
    expect(project.run(ENSURE)).toMatchObject({ code: 1, complained: NOT_FETCHED });
    expect([mark(), rubbish()]).toEqual(['old', []]);
    project.npmDoes(GOOD);
    expect(project.run(ENSURE).code).toBe(0);
    expect([mark(), rubbish()]).toEqual(['new', []]);
  });

  it('of a run that was ended at the worst moment are put back', () => {
    project.putPackages('old');
    // No process has this number: the run that left these is over.
    renameSync(project.path('node_modules'), project.path('.packages-before-4194305'));
    mkdirSync(project.path('.packages-next-4194305'));
    expect(project.run(ENSURE)).toMatchObject({ code: 1, complained: NOT_FETCHED });
    expect([mark(), rubbish()]).toEqual(['old', []]);
  });

  it('are left alone in a folder that may not be written, which is said in a sentence', () => {
    project.forbidWriting();
    expect(project.run(ENSURE, { isNobody: true })).toMatchObject({
      code: 1,
      complained:
        'The packages could not be put into this folder (EACCES): it must be one that you may write to.',
    });
    expect(existsSync(project.path('node_modules'))).toBe(false);
  });

  it('are not fetched by a Node that is too old', () => {
    expect(project.run(ENSURE, { before: OLD_NODE })).toEqual({
      code: 1,
      said: '',
      complained: 'Node 20.19 or newer is needed; this is 18.20.4.',
    });
  });

  it('run no script of their own, so that nothing is compiled for one Node, or run unasked', () => {
    expect(readFileSync('.npmrc', 'utf8').split('\n')).toContain('ignore-scripts=true');
  });
});

describe('npm start', () => {
  const START = ['scripts/start.mjs', '--no-open'];

  it('says what is wrong with a port or an option in one sentence', () => {
    for (const port of ['abc', '0', '65536', '-1', '46.5', ''])
      expect(project.run(START, { env: { PORT: port } })).toEqual({
        code: 1,
        said: '',
        complained: `PORT must be a whole number from 1 to 65535, as in PORT=4600; it is "${port}".`,
      });
    expect(project.run(['scripts/start.mjs', '--prot'])).toMatchObject({
      code: 1,
      complained: '"npm start" knows --no-open, --home, --network, not "--prot".',
    });
  });

  it('says in one sentence that there is no network, no right to write, or an old Node', () => {
    expect(project.run(START)).toMatchObject({ code: 1, complained: NOT_FETCHED });
    expect(project.run(START, { before: OLD_NODE }).complained).toBe(
      'Node 20.19 or newer is needed; this is 18.20.4.',
    );
    project.forbidWriting();
    expect(project.run(START, { isNobody: true }).complained).toMatch(/^The packages could not be put .*\.$/);
  });

  it('opens the page as it was built last where another cannot be built, or its packages fetched', async () => {
    project.putPackagesAndPage();
    const env = { PORT: String(await freePort()) };
    const opened = {
      code: 0,
      said: expect.stringContaining(`Hundredths is open at http://localhost:${env.PORT}/`),
    };
    expect(project.run(START, { env, before: END_ONCE_OPEN })).toMatchObject({
      ...opened,
      complained:
        'The page could not be built: Cannot resolve entry module index.html. The bench opens as it was built last.',
    });
    project.wantAnotherPackage();
    expect(project.run(START, { env, before: END_ONCE_OPEN })).toMatchObject({
      ...opened,
      complained: `${NOT_FETCHED} The bench opens as it was built last.`,
    });
  });
});
