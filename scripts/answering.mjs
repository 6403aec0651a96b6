// Finds out who answers at a port of this machine. Node built-ins only.
import { get } from 'node:http';
import { connect } from 'node:net';

/** Where a bench says that it is one. */
export const IDENTITY_PATH = '/.well-known/hundredths';
const PATIENCE_MS = 3000;
const MOST_READ = 64 * 1024;

const isTaken = (host, port) =>
  new Promise((resolve) => {
    const socket = connect({ host, port, timeout: PATIENCE_MS });
    const end = (answer) => {
      socket.destroy();
      resolve(answer);
    };
    socket
      .once('connect', () => end(true))
      .once('error', () => end(false))
      .once('timeout', () => end(false));
  });

/** What is answered to a request, as far as it is needed; undefined where no web server answers. */
const ask = (host, port, path) =>
  new Promise((resolve) => {
    const request = get({ host, port, path, timeout: PATIENCE_MS }, (response) => {
      let body = '';
      const end = () => resolve({ server: response.headers.server, body });
      response
        .setEncoding('utf8')
        .on('data', (chunk) => {
          body += chunk;
          if (body.length > MOST_READ) response.destroy();
        })
        .on('close', end);
    });
    request.once('timeout', () => request.destroy()).once('error', () => resolve(undefined));
  });

function benchIn(body) {
  try {
    const { name, version } = JSON.parse(body);
    return name === 'Hundredths' ? { version: String(version) } : undefined;
  } catch {
    return undefined;
  }
}

/** A word or two from a stranger, fit to be printed. */
const printable = (text) =>
  text
    ?.replace(/[^\x20-\x7e]+/g, ' ')
    .trim()
    .slice(0, 60) || undefined;

async function nameOf(host, port) {
  const answer = await ask(host, port, '/');
  const title = /<title>([^<]*)/i.exec(answer?.body ?? '')?.[1];
  return printable(title) ?? printable(answer?.server);
}

/**
 * @param {number} port of this machine
 * @returns {Promise<undefined | {bench: true, version: string} | {bench: false, name: string | undefined}>} undefined
 *   where nobody answers; the name is what a stranger calls itself
 */
export async function whoAnswers(port) {
  for (const host of ['127.0.0.1', '::1']) {
    if (!(await isTaken(host, port))) continue;
    const answer = await ask(host, port, IDENTITY_PATH);
    const bench = benchIn(answer?.body);
    return bench ? { bench: true, ...bench } : { bench: false, name: answer && (await nameOf(host, port)) };
  }
  return undefined;
}
