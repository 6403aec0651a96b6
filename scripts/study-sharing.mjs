// What a shared case costs and how fast it is, and whether it holds: npm run study:sharing -- [PARTS] [REEDS] [READINGS]
// [KILLS]. Counts documents, bytes and requests of a reed (sizes); copies 300 reeds in the browser, paused on the way, and
// times readings from one device to the other (browser); kills the server of two browsers that type 50 times, a clock
// wrong by a year, and copies a device with its browser (kills); walks three devices and a server through 2,000 random
// histories, and kills the server of two libraries 50 times (walk; the check of everything does a few of each). Needs a
// built page. Ends with 1 where something is not as claimed.
import { spawnSync } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';
import { toolCommand } from './programs.mjs';

const [parts = 'sizes,browser,kills,walk', reeds = '300', readings = '41', kills = '50'] =
  process.argv.slice(2);
const study = await import(pathToFileURL(await bundleForNode('tests/study/sharing-study.ts')).href);
if (parts.includes('sizes')) await study.sizes(console.log);
const claims = new study.Claims(console.log);
if (parts.includes('browser')) await study.inBrowser(Number(reeds), Number(readings), claims);
if (parts.includes('kills')) await study.killed(Number(kills), claims);
claims.settle();
if (parts.includes('walk')) {
  const [program, ...args] = toolCommand('vitest', ['run', '--project', 'unit', 'tests/unit/sharing/']);
  const env = { ...process.env, HISTORIES: '2000', KILLS: '50' };
  process.exitCode = spawnSync(program, args, { stdio: 'inherit', env }).status ?? 1;
}
