// Walks every pass of the invented reeds and a sample of the library of 300 under every question, and looks for a name
// with two values, and at every place around the bench with all of that library: npm run study:walk. The check of
// everything walks a part of it. Needs a built page.
import { spawnSync } from 'node:child_process';
import { toolCommand } from './programs.mjs';

const [program, ...args] = toolCommand('vitest', [
  'run',
  '--project',
  'journeys',
  'tests/journeys/one-value.test.ts',
  'tests/journeys/places.test.ts',
]);
const { status } = spawnSync(program, args, { stdio: 'inherit', env: { ...process.env, WALK: 'all' } });
process.exit(status ?? 1);
