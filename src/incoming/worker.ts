// Reads one file or several, away from the page's own thread. Given up, it is ended where it stands.
import '../../shared/without-code-generation.ts';
import { FormatError } from '../../shared/errors.ts';
import { readCsv } from '../exchange/csv/read-csv.ts';
import { backupPortions } from '../ledger/bundle/read.ts';
import { piecesOf, type ReadRequest, type ReadResponse } from './pieces.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ReadRequest>) => void;
  postMessage: (said: ReadResponse, moved?: readonly ArrayBufferLike[]) => void;
};

const onProgress = (share: number) => scope.postMessage({ share });

async function read(job: ReadRequest): Promise<ReadResponse> {
  if (job.job === 'readings') return { outcome: await readCsv(job.files, { progress: onProgress }) };
  for await (const portion of backupPortions(job.file, { onProgress }))
    for (const piece of piecesOf(portion))
      scope.postMessage(
        { piece },
        piece.attachments.map(({ bytes }) => bytes.buffer),
      );
  return { whole: true };
}

scope.onmessage = async ({ data }) => {
  try {
    scope.postMessage(await read(data));
  } catch (error) {
    if (error instanceof FormatError) scope.postMessage({ problems: error.problems });
    else scope.postMessage({ failed: error instanceof Error ? error.message : String(error) });
  }
};
