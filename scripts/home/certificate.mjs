// The certificate of a home's own server: made by openssl, kept beside the shared case, made anew when it is for other
// names or runs out. Source of what it holds: RFC 5280.
import { spawnSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { chmodSync, existsSync, readFileSync } from 'node:fs';
import { hostname, networkInterfaces } from 'node:os';
import { PlainError } from '../plain-error.mjs';

/** What telephones take of a certificate that is trusted by hand. From memory: Apple's limit for such is 825 days. */
const DAYS = 397;
const SPARE_MS = 30 * 86_400_000;

/** Addresses of this machine on its networks. */
export const networkAddresses = () =>
  Object.values(networkInterfaces())
    .flat()
    .filter(({ internal, family }) => !internal && family === 'IPv4')
    .map(({ address }) => address);

/** All names under which a page may ask for the bench. */
export const namesOfMachine = () => [
  'localhost',
  '127.0.0.1',
  hostname().toLowerCase(),
  ...networkAddresses(),
];

const isAddress = (name) => /^[\d.]+$/.test(name);

function isGood(path, names) {
  if (!existsSync(path)) return false;
  const certificate = new X509Certificate(readFileSync(path));
  const holds = (name) =>
    (isAddress(name) ? certificate.checkIP(name) : certificate.checkHost(name)) !== undefined;
  return names.every(holds) && Date.parse(certificate.validTo) - Date.now() > SPARE_MS;
}

/**
 * Key and certificate for some names.
 *
 * @throws {PlainError} where openssl is missing or fails
 */
export function certificateFor(folder, names) {
  const [keyPath, path] = [`${folder}/key.pem`, `${folder}/certificate.pem`];
  if (!isGood(path, names)) {
    const alternative = names.map((name) => `${isAddress(name) ? 'IP' : 'DNS'}:${name}`).join(',');
    const { status, error } = spawnSync(
      'openssl',
      [
        ...['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes'],
        ...[
          '-days',
          String(DAYS),
          '-subj',
          '/CN=Hundredths at home',
          '-addext',
          `subjectAltName=${alternative}`,
        ],
        ...['-keyout', keyPath, '-out', path],
      ],
      { stdio: 'ignore' },
    );
    if (error || status !== 0)
      throw new PlainError(
        'The certificate is made by openssl, which is missing here or has failed: install it, and start again.',
      );
    chmodSync(keyPath, 0o600);
  }
  return { key: readFileSync(keyPath), cert: readFileSync(path), path };
}
