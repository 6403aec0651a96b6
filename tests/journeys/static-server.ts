import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize, sep } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.csv': 'text/csv; charset=utf-8',
};

export interface Served {
  /** Ends with a slash. */
  readonly url: string;
  /** Every path asked for, in order. */
  readonly asked: readonly string[];
  readonly close: () => Promise<void>;
}

/** Serves a folder on localhost the way a plain static host does, `Vary: Origin` included. */
export async function serve(folder = 'dist', port = 0): Promise<Served> {
  const asked: string[] = [];
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    asked.push(path);
    const file = join(folder, normalize(path.endsWith('/') ? `${path}index.html` : path));
    const inside = file.startsWith(normalize(folder) + sep);
    readFile(inside ? file : '').then(
      (bytes) => {
        const type = TYPES[extname(file)] ?? 'application/octet-stream';
        response.writeHead(200, { 'content-type': type, 'cache-control': 'no-cache', vary: 'Origin' });
        response.end(bytes);
      },
      () => response.writeHead(404, { 'content-type': 'text/plain' }).end('There is no such file.'),
    );
  });
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  const url = `http://localhost:${(server.address() as AddressInfo).port}/`;
  return {
    url,
    asked,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
