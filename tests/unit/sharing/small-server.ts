import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { protocolOf, type User } from '../../../scripts/home/protocol.mjs';
import { Replica } from '../../../scripts/home/replica.mjs';

/** As long as a test may take; it only ends what hangs. */
export const PATIENCE_MS = 60_000;

/** Invented. */
export const USERS: readonly User[] = [
  { name: 'bench', password: 'reed knife' },
  { name: 'telephone', password: 'reed knife' },
  { name: 'pupil', password: 'cane', roles: ['hundredths-reads'] },
];

export interface SmallServer {
  readonly address: string;
  readonly replica: Replica;
  /** Method and path of every request, in order. */
  readonly asked: string[];
  /** Requests that are not answered yet, and the most that ever were at once, that wait for a change. */
  readonly held: number;
  readonly mostHeld: number;
  /** Answers as the protocol does. */
  readonly protocol: ReturnType<typeof protocolOf>;
  /** What is answered instead of the protocol, while it is set. */
  answer: ((request: IncomingMessage, response: ServerResponse) => void) | undefined;
  /** Cuts every connection, so that all ask anew. */
  readonly interrupt: () => void;
  readonly close: () => Promise<void>;
}

/** A shared case on a port of its own, in memory unless it has a file. */
export async function startSmallServer(
  options: { readonly path?: string; readonly port?: number; readonly origins?: readonly string[] } = {},
): Promise<SmallServer> {
  const { path, port = 0, origins = [] } = options;
  const replica = new Replica(path);
  const asked: string[] = [];
  const protocol = protocolOf({ replica, name: 'case', users: USERS, origins });
  let held = 0;
  let mostHeld = 0;
  const server = createServer((request, response) => {
    asked.push(`${request.method} ${request.url}`);
    if (request.url?.includes('longpoll')) {
      mostHeld = Math.max(mostHeld, ++held);
      response.once('close', () => (held -= 1));
    }
    if (small.answer) small.answer(request, response);
    else void protocol(request, response);
  });
  await new Promise<void>((resolve, reject) => {
    const listen = () => server.listen(port, '127.0.0.1', resolve);
    // A port that was free a moment ago may be the end of somebody's connection now.
    const until = Date.now() + PATIENCE_MS;
    server.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE' && Date.now() < until) setTimeout(listen, 50);
      else reject(error);
    });
    listen();
  });
  const small: SmallServer = {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/case`,
    replica,
    asked,
    protocol,
    get held() {
      return held;
    },
    get mostHeld() {
      return mostHeld;
    },
    answer: undefined,
    interrupt: () => server.closeAllConnections(),
    close: () =>
      new Promise((resolve) => {
        server.close(() => {
          replica.close();
          resolve();
        });
        server.closeAllConnections();
      }),
  };
  return small;
}
