import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Replica } from './replica.d.mts';

export interface User {
  readonly name: string;
  readonly password: string;
  readonly roles?: readonly string[];
}
/** Answers requests for one shared case. */
export function protocolOf(of: {
  readonly replica: Replica;
  readonly name: string;
  readonly users: readonly User[];
  readonly origins?: readonly string[];
}): (request: IncomingMessage, response: ServerResponse) => Promise<void>;
