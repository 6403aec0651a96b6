import type { Act } from '../../shared/round.ts';
import type { Pass } from '../../shared/pass.ts';
import { writeBundle } from './bundle/write.ts';
import type { Snapshot } from './snapshot.ts';

/**
 * Everything that a window still holds of a library whose database is gone, as a file that can be brought in again.
 *
 * @param held Passes with their readings, of the reeds looked at last. Of the others the index alone is left, which goes
 *   into the file among what cannot be read.
 * @param acts What was read or typed of rounds.
 */
export function rescueFile(
  { live, deleted, disagreements, setAside }: Snapshot,
  held: readonly Pass[],
  acts: readonly Act[],
): Promise<Uint8Array> {
  const listed = [...Object.values(live).flat(), ...deleted];
  const withReadings = new Set(held.map(({ id }) => id));
  const bare = listed.flatMap((one) => ('readingCount' in one && !withReadings.has(one.id) ? [one] : []));
  const documents = listed.flatMap((one) => ('readingCount' in one ? [] : [one]));
  return writeBundle({
    documents: [...documents, ...held, ...disagreements.flat()],
    acts,
    attachments: [],
    setAside: [
      ...setAside,
      ...bare.map((record) => ({
        of: 'documents' as const,
        id: record.id,
        reason: `The ${record.readingCount} readings of this pass were not at hand.`,
        record,
      })),
    ],
  });
}
