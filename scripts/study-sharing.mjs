// Walks three devices and a server through 2,000 random histories, and kills the server of two devices 50 times: npm run
// study:sharing. The check of everything does a few of each.
import { spawnSync } from 'node:child_process';
import { toolCommand } from './programs.mjs';

const [program, ...args] = toolCommand('vitest', ['run', '--project', 'unit', 'tests/unit/sharing/']);
const env = { ...process.env, HISTORIES: '2000', KILLS: '50' };
const { status } = spawnSync(program, args, { stdio: 'inherit', env });
process.exit(status ?? 1);
