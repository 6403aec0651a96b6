import { FormatError, type Problem } from '../../shared/errors.ts';

/** What a worker is told: a request, or that the last piece of the answer to it is taken. */
export type ToWorker<Q> = { readonly id: number } & ({ readonly request: Q } | { readonly isTaken: true });

/** What it says of a request: how much is done and pieces of the answer; in the end the answer, or why there is none. */
export type FromWorker<A, P> = { readonly id: number } & (
  | { readonly share: number }
  | { readonly piece: P }
  | { readonly answer: A }
  | { readonly failed: string; readonly problems?: readonly Problem[] }
);

/** What may be said before the answer. */
interface Said<P> {
  readonly onProgress: (share: number) => void;
  /** Gives a piece away, with the buffers that go along, and waits until it is taken. */
  readonly give: (piece: P, moved?: readonly ArrayBufferLike[]) => Promise<void>;
}

/** A worker's own side of its messages. */
export interface WorkerScope<Q, A, P> {
  onmessage: ((event: MessageEvent<ToWorker<Q>>) => void) | null;
  postMessage(said: FromWorker<A, P>, moved?: readonly ArrayBufferLike[]): void;
}

/** Answers the requests of a `workerClient`; what is thrown goes to it as a sentence. */
export function serveRequests<Q, A, P = never>(
  answer: (request: Q, said: Said<P>) => A | Promise<A>,
  scope = self as unknown as WorkerScope<Q, A, P>,
): void {
  const takers = new Map<number, () => void>();

  function saidOf(id: number): Said<P> {
    return {
      onProgress: (share) => scope.postMessage({ id, share }),
      give: (piece, moved) =>
        new Promise((resolve) => {
          takers.set(id, resolve);
          scope.postMessage({ id, piece }, moved);
        }),
    };
  }

  scope.onmessage = async ({ data }) => {
    const { id } = data;
    if ('isTaken' in data) return takers.get(id)?.();
    try {
      scope.postMessage({ id, answer: await answer(data.request, saidOf(id)) });
    } catch (error) {
      const failed = error instanceof Error ? error.message : String(error);
      scope.postMessage({ id, failed, ...(error instanceof FormatError && { problems: error.problems }) });
    }
  };
}
