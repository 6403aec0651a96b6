// Finds a Chromium to test with. Node built-ins only.
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { installFromDebian } from './debian.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge'];
/** The same browser, built without windows: two fifths less to do. */
const WITHOUT_WINDOWS = 'chromium-headless-shell';
const USUAL_PLACES = [
  '/usr/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
  'C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe',
];

/** Whether there is a program that can be run. */
export function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function onPath(names) {
  const folders = (process.env.PATH ?? '').split(delimiter);
  return names.flatMap((name) => folders.map((folder) => join(folder, name)));
}

const installed = () => [...onPath(NAMES), ...USUAL_PLACES].find(isExecutable);

/** Path of a Chromium-like browser. Throws one clear sentence when there is none. */
export function findBrowser() {
  const wanted = process.env.CHROME_PATH;
  if (wanted) {
    if (isExecutable(wanted)) return wanted;
    throw new Error(`CHROME_PATH names ${wanted}, which is not a program that can be run.`);
  }
  const found = installed();
  if (found) return found;
  try {
    installFromDebian('chromium', WITHOUT_WINDOWS);
  } catch (cause) {
    throw new Error(
      'Debian\'s "chromium" could not be installed; run "apt-get install chromium" and try again.',
      { cause },
    );
  }
  const now = installed();
  if (now) return now;
  throw new Error(
    'No Chromium found: install one (on Debian "apt-get install chromium"), or set CHROME_PATH to it; "npm run unit" runs the checks that need no browser.',
  );
}

const withoutWindows = () =>
  process.env.CHROME_PATH ? undefined : onPath([WITHOUT_WINDOWS]).find(isExecutable);

/** The lightest Chromium that draws pages: without windows, sound and microphone, where there is such a one. */
export const findHeadless = () => withoutWindows() ?? findBrowser();

/** Sees to a browser, and on Debian to the light one beside it, which `findHeadless` can do without. */
export function ensureBrowsers() {
  const found = findBrowser();
  if (found !== '/usr/bin/chromium' || withoutWindows()) return;
  try {
    installFromDebian(WITHOUT_WINDOWS);
  } catch {
    console.log(`Going on without ${WITHOUT_WINDOWS}: the tests take longer.`);
  }
}

/** Command-line switches that every test launch shares. */
export const BROWSER_ARGS = [
  ...(process.getuid?.() === 0 || process.env.CI ? ['--no-sandbox'] : []),
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--enable-unsafe-swiftshader',
];
