// What a shared case costs and how fast it is, and whether it holds: npm run study:sharing. Counts documents, bytes and
// requests of a reed, copies 300 reeds in the browser, times readings from one device to the other; then walks three
// devices and a server through 2,000 random histories, and kills the server of two devices 50 times (the check of
// everything does a few of each). Needs a built page.
import { spawnSync } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';
import { toolCommand } from './programs.mjs';

const [parts = 'sizes,browser,walk', reeds = '300', readings = '41'] = process.argv.slice(2);
const study = await import(pathToFileURL(await bundleForNode('tests/study/sharing-study.ts')).href);
if (parts.includes('sizes')) await study.sizes(console.log);
if (parts.includes('browser')) await study.inBrowser(Number(reeds), Number(readings), console.log);
if (parts.includes('walk')) {
  const [program, ...args] = toolCommand('vitest', ['run', '--project', 'unit', 'tests/unit/sharing/']);
  const env = { ...process.env, HISTORIES: '2000', KILLS: '50' };
  process.exitCode = spawnSync(program, args, { stdio: 'inherit', env }).status ?? 1;
}
