// Puts the relief on a page and takes it away 200 times, and looks for what is left behind: npm run study:openings. The
// check of everything does it 20 times.
import { spawnSync } from 'node:child_process';
import { toolCommand } from './programs.mjs';

const [program, ...args] = toolCommand('wtr', ['--files', 'tests/browser/relief.test.ts']);
const env = { ...process.env, OPENINGS: '200' };
const { status } = spawnSync(program, args, { stdio: 'inherit', env });
process.exit(status ?? 1);
