// Reads one file or several, away from the page's own thread. Given up, it is ended where it stands.
import '../../shared/without-code-generation.ts';
import { readCsv, type CsvOutcome } from '../exchange/csv/read-csv.ts';
import { backupPortions } from '../ledger/bundle/read.ts';
import type { WholeLibrary } from '../ledger/whole-library.ts';
import { serveRequests } from '../workers/server.ts';
import { piecesOf, type ReadRequest } from './pieces.ts';

serveRequests<ReadRequest, CsvOutcome | undefined, WholeLibrary>(async (request, { onProgress, give }) => {
  if ('files' in request) return readCsv(request.files, { progress: onProgress });
  for await (const portion of backupPortions(request.library, { onProgress }))
    for (const piece of piecesOf(portion))
      await give(
        piece,
        piece.attachments.map(({ bytes }) => bytes.buffer),
      );
  return undefined;
});
