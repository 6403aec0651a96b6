// Reads one file or several, away from the page's own thread. Given up, it is ended where it stands.
import '../../shared/without-code-generation.ts';
import { FormatError } from '../../shared/errors.ts';
import { readCsv } from '../exchange/csv/read-csv.ts';
import { backupPortions } from '../ledger/bundle/read.ts';
import type { WholeLibrary } from '../ledger/whole-library.ts';
import { piecesOf, type ReadRequest, type ReadResponse } from './pieces.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ReadRequest>) => void;
  postMessage: (said: ReadResponse, moved?: readonly ArrayBufferLike[]) => void;
};

const onProgress = (share: number) => scope.postMessage({ share });

let isTaken: () => void = () => undefined;

/** Gives a piece away, and waits until it is taken. */
function give(piece: WholeLibrary): Promise<void> {
  const taken = new Promise<void>((resolve) => (isTaken = resolve));
  scope.postMessage(
    { piece },
    piece.attachments.map(({ bytes }) => bytes.buffer),
  );
  return taken;
}

async function read(job: Exclude<ReadRequest, { job: 'more' }>): Promise<ReadResponse> {
  if (job.job === 'readings') return { outcome: await readCsv(job.files, { progress: onProgress }) };
  for await (const portion of backupPortions(job.file, { onProgress }))
    for (const piece of piecesOf(portion)) await give(piece);
  return { whole: true };
}

scope.onmessage = async ({ data }) => {
  if (data.job === 'more') return isTaken();
  try {
    scope.postMessage(await read(data));
  } catch (error) {
    if (error instanceof FormatError) scope.postMessage({ problems: error.problems });
    else scope.postMessage({ failed: error instanceof Error ? error.message : String(error) });
  }
};
