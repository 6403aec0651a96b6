import type { WorkerLike } from '../src/workers/client.ts';
import { serveRequests, type FromWorker, type ToWorker, type WorkerScope } from '../src/workers/server.ts';

export interface FakeWorker<Q> {
  readonly worker: WorkerLike;
  /** The requests that have come. */
  readonly requests: Q[];
  readonly isEnded: () => boolean;
  /** As a worker that dies, or never starts. */
  readonly die: (message: string) => void;
}

/** A worker in the test's own thread: what `serveRequests` does with an answer, message by message as between threads. */
export function fakeWorker<Q, A, P = never>(
  answer: Parameters<typeof serveRequests<Q, A, P>>[0],
): FakeWorker<Q> {
  const requests: Q[] = [];
  let isEnded = false;
  const scope: WorkerScope<Q, A, P> = {
    onmessage: null,
    postMessage: (data: FromWorker<A, P>) => {
      if (!isEnded) worker.onmessage?.({ data } as MessageEvent);
    },
  };
  const worker: WorkerLike = {
    onmessage: null,
    onerror: null,
    postMessage: (data) => {
      if ('request' in (data as ToWorker<Q>)) requests.push((data as { request: Q }).request);
      scope.onmessage?.({ data } as MessageEvent<ToWorker<Q>>);
    },
    terminate: () => {
      isEnded = true;
    },
  };
  serveRequests(answer, scope);
  return {
    worker,
    requests,
    isEnded: () => isEnded,
    die: (message) => worker.onerror?.({ message } as ErrorEvent),
  };
}
