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
  /** What is answered instead of the protocol, while it is set. */
  answer: ((request: IncomingMessage, response: ServerResponse) => void) | undefined;
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
  const server = createServer((request, response) => {
    asked.push(`${request.method} ${request.url}`);
    if (small.answer) small.answer(request, response);
    else void protocol(request, response);
  });
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  const small: SmallServer = {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/case`,
    replica,
    asked,
    answer: undefined,
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
