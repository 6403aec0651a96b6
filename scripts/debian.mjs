import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

/** Installs packages where this is Debian and may be done; elsewhere does nothing. @throws when that fails */
export function installFromDebian(...packages) {
  if (process.getuid?.() !== 0 || !existsSync('/etc/debian_version')) return;
  console.log(`Installing ${packages.join(', ')} from Debian ...`);
  const quiet = {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  };
  execFileSync('apt-get', ['update', '-qq'], quiet);
  execFileSync('apt-get', ['install', '-y', '-qq', ...packages], quiet);
}
