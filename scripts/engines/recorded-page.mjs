// A copy of the built page that writes down every word of its console, from its first moment, in every engine alike.
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildServiceWorker } from '../service-worker.mjs';

const RECORDER = `
globalThis.heard = [];
const hear = (kind, what) => heard.push(kind + ': ' + what);
for (const kind of ['error', 'warn']) {
  const real = console[kind];
  console[kind] = (...words) => { hear(kind, words.map(String).join(' ')); real.apply(console, words); };
}
addEventListener('error', ({ message }) => hear('uncaught', message));
addEventListener('unhandledrejection', ({ reason }) => hear('unhandled', reason));
addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) => hear('policy', violatedDirective + ' ' + blockedURI));
`;

/** @returns the folder of the copy */
export async function recordedPage(built) {
  const folder = mkdtempSync(join(tmpdir(), 'hundredths-engines-'));
  cpSync(built, folder, { recursive: true });
  writeFileSync(join(folder, 'recorder.js'), RECORDER);
  const index = join(folder, 'index.html');
  const html = readFileSync(index, 'utf8');
  writeFileSync(index, html.replace('<script', '<script src="./recorder.js"></script><script'));
  await buildServiceWorker(folder);
  return folder;
}
