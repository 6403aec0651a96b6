import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { codeOf } from '../../../scripts/home/code.mjs';
import { serveHome } from '../../../scripts/home/serve-home.mjs';
import { freePort } from '../../journeys/started.ts';

const folder = mkdtempSync(join(tmpdir(), 'hundredths-home-'));
const home = join(folder, 'home');
let served: Awaited<ReturnType<typeof serveHome>>;
beforeAll(async () => {
  mkdirSync(join(folder, 'dist'));
  writeFileSync(join(folder, 'dist', 'index.html'), 'the page');
  served = await serveHome({
    folder: join(folder, 'dist'),
    home,
    port: await freePort(),
    isOnNetwork: false,
  });
});
afterAll(() => {
  served.close();
  rmSync(folder, { recursive: true });
});

/** Asks as a browser that trusts the certificate does. */
const ask = (path: string, headers: Record<string, string> = {}) =>
  new Promise<{ status?: number | undefined; policy?: string; body: string }>((resolve, reject) => {
    const ca = readFileSync(join(home, 'certificate.pem'));
    request(new URL(path, served.address), { ca, headers, servername: 'localhost' }, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (chunk: string) => (body += chunk));
      const policy = String(response.headers['content-security-policy']);
      response.on('end', () => resolve({ status: response.statusCode, policy, body }));
    })
      .on('error', reject)
      .end();
  });

it('serves page and shared case from one origin by a certificate of its own', async () => {
  const page = await ask('/');
  expect(page.body).toBe('the page');
  expect(page.policy).toContain("script-src 'self'");
  expect((await ask('/case')).status).toBe(401);
  const authorization = `Basic ${btoa(`${served.name}:${served.password}`)}`;
  expect(JSON.parse((await ask('/case', { authorization })).body)).toMatchObject({
    db_name: 'case',
    doc_count: 0,
  });
  expect((await ask('/home-certificate.crt')).body).toContain('BEGIN CERTIFICATE');
});

it('lets nobody in under a name that is not its own', async () => {
  expect((await ask('/', { host: 'bench.invented' })).status).toBe(421);
});

it('shows its address as a code with a light margin of four all around', () => {
  const colours = ['\u001b[40;97m', '\u001b[0m'];
  const lines = codeOf(served.address)
    .split('\n')
    .map((line) => colours.reduce((text, colour) => text.replace(colour, ''), line));
  const width = lines[0]!.length;
  // Version 2 holds 26 bytes and has 25 places, and four of margin on each side. Source: ISO/IEC 18004, tables 1 and 7.
  expect(served.address).toHaveLength(24);
  expect([width, lines.length]).toEqual([33, 17]);
  expect(lines[0]).toBe('█'.repeat(width));
  for (const line of lines) expect(line).toMatch(/^████.*████$/);
});
