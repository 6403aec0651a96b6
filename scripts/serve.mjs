// Serves the built page on this machine alone, with the headers that a meta element cannot carry.
import { createServer } from 'node:http';
import sirv from 'sirv';
import { IDENTITY_PATH } from './answering.mjs';
import { cacheControl, headersOf } from './policy.mjs';

/** `localhost` means either. */
const LOOPBACK = ['127.0.0.1', '::1'];

/** What a browser is told that came by another name of this machine: another name has another library. */
function sendToLocalhost(request, response, port) {
  const { host } = request.headers;
  if (host === `localhost:${port}`) return false;
  const isThisMachine = LOOPBACK.some(
    (address) => host === `${address}:${port}` || host === `[${address}]:${port}`,
  );
  if (isThisMachine) response.writeHead(308, { Location: `http://localhost:${port}${request.url}` }).end();
  else
    response
      .writeHead(421, { 'Content-Type': 'text/plain' })
      .end(`The bench is at http://localhost:${port}/.`);
  return true;
}

/** Serves the files of a folder, with their headers; nothing but reading is answered. */
export function filesOf(folder) {
  // Looked up anew for each request: a newer build is served at once.
  const files = sirv(folder, {
    dev: true,
    setHeaders(response, path) {
      response.setHeader('Cache-Control', cacheControl(path));
    },
  });
  return (request, response) => {
    if (request.method !== 'GET' && request.method !== 'HEAD') return void response.writeHead(405).end();
    files(request, response);
  };
}

/** Gives an answer the headers of what is served at the path that is asked for. */
export function addHeaders({ url }, response) {
  const [path] = url.split('?');
  for (const [name, value] of Object.entries(headersOf(path))) response.setHeader(name, value);
}

function handlerOf(folder, port, identity, ready) {
  const files = filesOf(folder);
  return async (request, response) => {
    addHeaders(request, response);
    if (request.url === IDENTITY_PATH)
      return response.writeHead(200, { 'Content-Type': 'application/json' }).end(JSON.stringify(identity));
    if (sendToLocalhost(request, response, port)) return;
    await ready;
    files(request, response);
  };
}

function listen(handler, host, port) {
  const server = createServer(handler);
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => resolve(server));
  });
}

/** A machine without the sixth version of the protocol has no such address. */
const isNoAddress = ({ code }) => code === 'EADDRNOTAVAIL' || code === 'EAFNOSUPPORT';

/**
 * @param {{folder: string, port: number, version: string, ready: Promise<unknown>}} what `ready` holds pages back until
 *   there is something to serve
 * @throws with `code` EADDRINUSE or EACCES when the port cannot be had
 */
export async function serveBench({ folder, port, version, ready }) {
  const handler = handlerOf(folder, port, { name: 'Hundredths', version }, ready);
  const servers = [await listen(handler, LOOPBACK[0], port)];
  try {
    servers.push(await listen(handler, LOOPBACK[1], port));
  } catch (error) {
    if (!isNoAddress(error)) {
      servers[0].close();
      throw error;
    }
  }
  return {
    close() {
      for (const server of servers) {
        server.close();
        server.closeAllConnections();
      }
    },
  };
}
