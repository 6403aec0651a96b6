// The worker of the elements that read files: what it runs, beside them under a name of its own.
import '../../src/answers/concurrent/fit-worker.ts';
