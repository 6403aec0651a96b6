import type { FitResponse, FitRequest } from '../../src/answers/concurrent/fit-request.ts';
import type { FitReply } from '../../src/answers/concurrent/fit-worker.ts';

/** A worker, as far as fits need one. */
export interface FitWorker {
  onmessage: ((event: MessageEvent<FitReply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(wish: FitRequest): void;
  terminate(): void;
}

/** Answers wishes of one library's reeds, one after the other. */
export interface FitThread {
  /**
   * Rejects with the signal's reason when it is aborted: a wish that waits is dropped, one that is being worked at is
   * stopped.
   */
  readonly ask: (wish: FitRequest, signal?: AbortSignal) => Promise<FitResponse>;
  readonly close: () => void;
}

interface Task {
  readonly wish: FitRequest;
  readonly signal: AbortSignal | undefined;
  readonly resolve: (answer: FitResponse) => void;
  readonly reject: (reason: unknown) => void;
}

/** Does the same on the page's own thread, with room between wishes for keys and pictures. */
function workerHere(): FitWorker {
  const answering = import('../../src/answers/concurrent/fit-answers.ts').then(({ fitAnswers }) =>
    fitAnswers(),
  );
  let isStopped = false;
  async function replyTo(wish: FitRequest): Promise<FitReply> {
    try {
      const answer = await answering;
      await new Promise((resolve) => setTimeout(resolve));
      return isStopped ? { answer: {} } : { answer: await answer(wish) };
    } catch (error) {
      return { error };
    }
  }
  const worker: FitWorker = {
    onmessage: null,
    onerror: null,
    async postMessage(wish) {
      const data = await replyTo(wish);
      if (!isStopped) worker.onmessage?.(new MessageEvent('message', { data }));
    },
    terminate: () => {
      isStopped = true;
    },
  };
  return worker;
}

/**
 * @param start Starts a worker that runs `src/answers/concurrent/fit-worker.ts`, at the first wish and again after a wish was
 *   stopped. Left out, or where it cannot be started: the same work is done on the page's own thread.
 */
export function makeFitThread(start: () => FitWorker = workerHere): FitThread {
  let starting = start;
  let worker: FitWorker | undefined;
  let running: Task | undefined;
  let waiting: readonly Task[] = [];

  /** Where the page's policy, or the place of the script, forbids a worker, starting one throws. */
  function startedOrHere(): FitWorker {
    try {
      return starting();
    } catch {
      starting = workerHere;
      return starting();
    }
  }

  function started(): FitWorker {
    const one = startedOrHere();
    one.onmessage = ({ data }) => finish(data);
    one.onerror = () => {
      starting = workerHere;
      restart();
    };
    return one;
  }

  function stop(): void {
    worker?.terminate();
    worker = undefined;
  }

  /** Another worker takes up what this one was at. */
  function restart(): void {
    stop();
    if (!running) return;
    waiting = [running, ...waiting];
    running = undefined;
    next();
  }

  function next(): void {
    if (running || waiting.length === 0) return;
    [running, ...waiting] = waiting as readonly [Task, ...Task[]];
    worker ??= started();
    worker.postMessage(running.wish);
  }

  function finish(reply: FitReply): void {
    const done = running;
    running = undefined;
    if ('answer' in reply) done?.resolve(reply.answer);
    else done?.reject(reply.error);
    next();
  }

  function drop(task: Task): void {
    task.reject(task.signal?.reason);
    waiting = waiting.filter((other) => other !== task);
    if (task !== running) return;
    stop();
    running = undefined;
    next();
  }

  /** What somebody waits for goes before what is only made ready. */
  function add(task: Task): void {
    const at = task.signal ? waiting.findIndex(({ signal }) => !signal) : -1;
    waiting = at < 0 ? [...waiting, task] : waiting.toSpliced(at, 0, task);
    next();
  }

  return {
    ask: (wish, signal) =>
      new Promise((resolve, reject) => {
        signal?.throwIfAborted();
        const task = { wish, signal, resolve, reject };
        signal?.addEventListener('abort', () => drop(task), { once: true });
        add(task);
      }),
    close: stop,
  };
}
