import { FORMAT_VERSION } from '../shared/stamp.ts';
import { joined } from '../src/ledger/bundle/portions.ts';
import { backupPortions } from '../src/ledger/bundle/read.ts';
import { canonicalJson } from '../src/ledger/canonical.ts';
import { inOrder, type Holdings } from '../src/ledger/merge.ts';
import type { WholeLibrary } from '../src/ledger/whole-library.ts';

/** A whole library as a file: canonical JSON, so that equal libraries are equal files. */
export const libraryText = (holdings: Holdings): string =>
  canonicalJson({ format: 'hundredths-library', formatVersion: FORMAT_VERSION, ...inOrder(holdings) });

/** A backup of either kind as a whole. @throws FormatError */
export async function readBackup(bytes: Uint8Array): Promise<WholeLibrary> {
  const portions: WholeLibrary[] = [];
  for await (const portion of backupPortions(new Blob([bytes as Uint8Array<ArrayBuffer>]), {}))
    portions.push(portion);
  return joined(portions);
}
