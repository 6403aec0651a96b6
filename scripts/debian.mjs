import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

/** Without a network it says so soon. */
const BRIEFLY = ['-o', 'Acquire::Retries=0', '-o', 'Acquire::http::Timeout=10'];

/** Installs packages where this is Debian and may be done; elsewhere does nothing. @throws when that fails */
export function installFromDebian(...packages) {
  if (process.getuid?.() !== 0 || !existsSync('/etc/debian_version')) return;
  console.log(`Installing ${packages.join(', ')} from Debian ...`);
  const quiet = {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  };
  execFileSync('apt-get', [...BRIEFLY, 'update', '-qq'], quiet);
  execFileSync('apt-get', [...BRIEFLY, 'install', '-y', '-qq', ...packages], quiet);
}
