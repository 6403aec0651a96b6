import { writeBundle } from './bundle/write.ts';
import type { Snapshot } from './snapshot.ts';

/** Everything that a window still holds of a library whose database is gone, as a file that can be brought in again. */
export function rescueFile({ live, deleted, disagreements, setAside }: Snapshot): Promise<Uint8Array> {
  const documents = [...Object.values(live).flat(), ...deleted, ...disagreements.flat()];
  return writeBundle({ documents, acts: [], attachments: [], setAside });
}
