import type { FitResponse, FitRequest } from '../../src/answers/concurrent/fit-request.ts';
import { workerClient, WorkerError, type WorkerClient, type WorkerLike } from '../../src/workers/client.ts';

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

type Fits = Pick<WorkerClient<FitRequest, FitResponse, never>, 'ask' | 'close'>;

/** Does the same on the page's own thread, with room between wishes for keys and pictures. */
function fitsHere(): Fits {
  const answering = import('../../src/answers/concurrent/fit-answers.ts').then(({ fitAnswers }) =>
    fitAnswers(),
  );
  return {
    async ask(wish, { signal } = {}) {
      const answer = await answering;
      await new Promise((resolve) => setTimeout(resolve));
      signal?.throwIfAborted();
      return answer(wish);
    },
    close: () => undefined,
  };
}

/**
 * @param start Starts a worker that runs `src/answers/concurrent/fit-worker.ts`, at the first wish and again after a wish was
 *   stopped. Left out, or where there is no worker: the same work is done on the page's own thread.
 */
export function makeFitThread(start?: () => WorkerLike): FitThread {
  let fits: Fits = start ? workerClient(start) : fitsHere();
  let waiting: readonly Task[] = [];
  let isWorking = false;

  async function answerTo({ wish, signal }: Task): Promise<FitResponse> {
    try {
      return await fits.ask(wish, { signal });
    } catch (error) {
      if (!(error instanceof WorkerError)) throw error;
      fits = fitsHere();
      return fits.ask(wish, { signal });
    }
  }

  async function work(): Promise<void> {
    if (isWorking) return;
    isWorking = true;
    for (let [task] = waiting; task; [task] = waiting) {
      waiting = waiting.slice(1);
      if (!task.signal?.aborted) await answerTo(task).then(task.resolve, task.reject);
    }
    isWorking = false;
  }

  /** What somebody waits for goes before what is only made ready. */
  function add(task: Task): void {
    const at = task.signal ? waiting.findIndex(({ signal }) => !signal) : -1;
    waiting = at < 0 ? [...waiting, task] : waiting.toSpliced(at, 0, task);
    void work();
  }

  return {
    ask: (wish, signal) =>
      new Promise((resolve, reject) => {
        signal?.throwIfAborted();
        signal?.addEventListener('abort', () => reject(signal.reason as Error), { once: true });
        add({ wish, signal, resolve, reject });
      }),
    close: () => fits.close(),
  };
}
