// Serves page and shared case from one origin by https: on this machine, or on its networks where that was asked for.
import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:https';
import { addHeaders, filesOf } from '../serve.mjs';
import { certificateFor, namesOfMachine, networkAddresses } from './certificate.mjs';
import { protocolOf } from './protocol.mjs';
import { Replica } from './replica.mjs';

/** What the case is called in its address, and the one name of the household. */
const CASE = 'case';
const NAME = 'home';
const CERTIFICATE_PATH = '/home-certificate.crt';
/** Without letters and digits that are taken for each other. */
const LETTERS = 'abcdefghjkmnpqrstuvwxyz23456789';

/** The password of the household: made once, kept beside the case. */
function passwordIn(folder) {
  const path = `${folder}/password`;
  if (!existsSync(path)) {
    const letters = [...randomBytes(16)].map((byte) => LETTERS[byte % LETTERS.length]).join('');
    writeFileSync(path, letters.match(/.{4}/g).join('-'), { mode: 0o600 });
  }
  return readFileSync(path, 'utf8').trim();
}

/** The name by which a request asks, without its port. */
const nameIn = ({ host = '' }) => host.replace(/:\d+$/, '').toLowerCase();

function handlerOf(folder, protocol, { names, certificate }) {
  const files = filesOf(folder);
  return (request, response) => {
    addHeaders(request, response);
    const [path] = request.url.split('?');
    // A page of another origin that gives itself the address of this machine is not let in.
    if (!names.includes(nameIn(request.headers))) return response.writeHead(421).end();
    if (path === CERTIFICATE_PATH)
      return response.writeHead(200, { 'Content-Type': 'application/x-x509-ca-cert' }).end(certificate);
    if (path === `/${CASE}` || path.startsWith(`/${CASE}/`)) return void protocol(request, response);
    return files(request, response);
  };
}

/**
 * @param {{folder: string, home: string, port: number, isOnNetwork: boolean}} what `home` is where case, password and
 *   certificate are kept
 * @throws with `code` EADDRINUSE or EACCES when the port cannot be had
 */
export async function serveHome({ folder, home, port, isOnNetwork }) {
  mkdirSync(home, { recursive: true, mode: 0o700 });
  const names = namesOfMachine();
  const { key, cert } = certificateFor(home, names);
  const password = passwordIn(home);
  const replica = new Replica(`${home}/case.jsonl`);
  const protocol = protocolOf({ replica, name: CASE, users: [{ name: NAME, password }] });
  const server = createServer({ key, cert }, handlerOf(folder, protocol, { names, certificate: cert }));
  await new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, isOnNetwork ? '0.0.0.0' : '127.0.0.1', resolve);
  });
  const host = (isOnNetwork && networkAddresses()[0]) || 'localhost';
  return {
    address: `https://${host}:${port}/`,
    caseAddress: `https://${host}:${port}/${CASE}`,
    certificateAddress: `https://${host}:${port}${CERTIFICATE_PATH}`,
    name: NAME,
    password,
    close() {
      server.close();
      server.closeAllConnections();
      replica.close();
    },
  };
}
