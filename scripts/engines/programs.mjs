// Where the other engines are.
import { readdirSync } from 'node:fs';
import { installFromDebian } from '../debian.mjs';
import { isExecutable } from '../find-browser.mjs';
import { PlainError } from '../plain-error.mjs';

const PACKAGES = ['firefox-esr', 'webkit2gtk-driver', 'xvfb'];
const FIXED = {
  firefox: '/usr/bin/firefox-esr',
  webkitDriver: '/usr/bin/WebKitWebDriver',
  xvfb: '/usr/bin/Xvfb',
};

/** The window that the driver steers lies in a folder named after the machine and the engine's own version. */
function miniBrowser() {
  const libraries = readdirSync('/usr/lib').map((folder) => `/usr/lib/${folder}`);
  return libraries
    .flatMap((folder) =>
      ['4.1', '4.0', '6.0'].map((version) => `${folder}/webkit2gtk-${version}/MiniBrowser`),
    )
    .find(isExecutable);
}

function programs() {
  const browser = miniBrowser();
  return Object.values(FIXED).every(isExecutable) && browser ? { ...FIXED, miniBrowser: browser } : undefined;
}

/** @throws {PlainError} saying what to install */
export function enginePrograms() {
  const found = programs();
  if (found) return found;
  const missing = new PlainError(
    `Firefox and WebKit are tried with Debian's packages: run "apt-get install ${PACKAGES.join(' ')}" and try again.`,
  );
  if (process.platform !== 'linux') throw missing;
  try {
    installFromDebian(...PACKAGES);
  } catch {
    throw missing;
  }
  const now = programs();
  if (!now) throw missing;
  return now;
}
