import { FormatError } from '../../shared/errors.ts';
import type { FromWorker } from './server.ts';

/** A worker, as far as a client needs one. */
export interface WorkerLike {
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: unknown): void;
  terminate(): void;
}

/** The worker could not be started, or died. */
export class WorkerError extends Error {
  override readonly name = 'WorkerError';
  /** Whether it had said anything by then. */
  readonly hasSpoken: boolean;

  constructor(message: string, hasSpoken: boolean) {
    super(message);
    this.hasSpoken = hasSpoken;
  }
}

export interface AskOptions<P> {
  /** Ends the worker where it stands, whatever else it is at: what waits for it is rejected with the signal's reason. */
  readonly signal?: AbortSignal | undefined;
  /** Called with the share done, 0 to 1. */
  readonly onProgress?: ((share: number) => void) | undefined;
  /** Takes a piece of the answer; the worker makes the next one when this one is taken. */
  readonly take?: (piece: P) => Promise<unknown>;
}

export interface WorkerClient<Q, A, P> {
  /**
   * @throws FormatError or Error with the sentence that the worker threw.
   * @throws WorkerError when there is no worker to answer.
   */
  readonly ask: (request: Q, options?: AskOptions<P>) => Promise<A>;
  readonly close: () => void;
}

interface Waiting<A, P> extends AskOptions<P> {
  readonly resolve: (answer: A) => void;
  readonly reject: (reason: unknown) => void;
}

/** @throws WorkerError where the page's policy, or the place of the script, forbids a worker. */
function started<S>(
  start: () => WorkerLike,
  hear: (said: S) => void,
  die: (error: WorkerError) => void,
): WorkerLike {
  let hasSpoken = false;
  try {
    const worker = start();
    worker.onmessage = ({ data }: MessageEvent<S>) => {
      hasSpoken = true;
      hear(data);
    };
    worker.onerror = ({ message }) => die(new WorkerError(message, hasSpoken));
    return worker;
  } catch (error) {
    throw new WorkerError(String(error), false);
  }
}

function settle<A, P>(said: FromWorker<A, P>, { onProgress, resolve, reject }: Waiting<A, P>): void {
  if ('share' in said) onProgress?.(said.share);
  else if ('answer' in said) resolve(said.answer);
  else if ('failed' in said) reject(said.problems ? new FormatError(said.problems) : new Error(said.failed));
}

/**
 * Asks a worker that runs `serveRequests`.
 *
 * @param start Starts one, at the first request and again after one was ended.
 */
export function workerClient<Q, A, P = never>(start: () => WorkerLike): WorkerClient<Q, A, P> {
  const waiting = new Map<number, Waiting<A, P>>();
  let worker: WorkerLike | undefined;
  let asked = 0;

  function close(): void {
    worker?.terminate();
    worker = undefined;
  }

  function end(reason: unknown): void {
    close();
    for (const { reject } of waiting.values()) reject(reason);
    waiting.clear();
  }

  async function hear(said: FromWorker<A, P>): Promise<void> {
    const { id } = said;
    const request = waiting.get(id);
    if (!request) return;
    if ('piece' in said) {
      await request.take?.(said.piece);
      worker?.postMessage({ id, isTaken: true });
    } else settle(said, request);
    if ('answer' in said || 'failed' in said) waiting.delete(id);
  }

  return {
    ask: (request, options = {}) =>
      new Promise((resolve, reject) => {
        const { signal } = options;
        signal?.throwIfAborted();
        worker ??= started(start, (said: FromWorker<A, P>) => void hear(said).catch(end), end);
        const id = ++asked;
        waiting.set(id, { ...options, resolve, reject });
        signal?.addEventListener('abort', () => waiting.has(id) && end(signal.reason), { once: true });
        worker.postMessage({ id, request });
      }),
    close,
  };
}

/**
 * Asks a worker of its own, which ends with its answer.
 *
 * @param here Does the same without a worker, where none starts.
 */
export async function askOnce<Q, A, P = never>(
  start: () => WorkerLike,
  request: Q,
  options: AskOptions<P>,
  here: () => Promise<A>,
): Promise<A> {
  const client = workerClient<Q, A, P>(start);
  try {
    return await client.ask(request, options);
  } catch (error) {
    if (error instanceof WorkerError && !error.hasSpoken) return await here();
    throw error;
  } finally {
    client.close();
  }
}
