import type { Id } from '../../shared/ids.ts';
import { notChosenSchema, type NotChosen } from '../../shared/library.ts';
import { canonicalJson, compareText } from './canonical.ts';
import type { Database, KeptCopy } from './database.ts';
import { reasonFor, type SetAside } from './rows.ts';

/** What is told of the sides that were not chosen, and what cannot be read of them. */
export interface NotChosenRead {
  readonly notChosen: readonly NotChosen[];
  readonly setAside: readonly SetAside[];
}

const settled = (db: Database) => db.copies.filter(({ why }) => why === 'settled');

/** Copies of an earlier program have no moment of their own: the side's last change stands for it. */
function recordOf({ at, record }: KeptCopy): { at: unknown; side: unknown } {
  const side = record as { readonly updatedAt?: unknown } | null;
  return { at: at ?? side?.updatedAt, side };
}

const idIn = ({ record }: KeptCopy) => String((record as { readonly id?: unknown } | null)?.id ?? '');

/** Inside a transaction: the sides that were not chosen, of some documents or of all. */
export async function readNotChosen(
  db: Database,
  ids: readonly Id[] | 'all' = 'all',
): Promise<NotChosenRead> {
  const copies = await settled(db).toArray();
  const notChosen: NotChosen[] = [];
  const setAside: SetAside[] = [];
  for (const copy of copies.filter((one) => ids === 'all' || ids.includes(idIn(one)))) {
    const record = recordOf(copy);
    const { success, data, error } = notChosenSchema.safeParse(record);
    if (success) notChosen.push(data);
    else
      setAside.push({
        of: 'notChosen',
        id: idIn(copy),
        reason: reasonFor(record.side, error.issues),
        record,
      });
  }
  return { notChosen, setAside };
}

/** Inside a transaction: adds what is not there yet. */
export async function addNotChosen(
  db: Database,
  records: readonly { readonly at: unknown; readonly side: unknown }[],
): Promise<void> {
  if (records.length === 0) return;
  const known = new Set((await settled(db).toArray()).map((copy) => canonicalJson(recordOf(copy))));
  for (const { at, side } of records) {
    const text = canonicalJson({ at, side });
    if (known.has(text)) continue;
    known.add(text);
    await db.copies.add({ why: 'settled', at: String(at), record: side });
  }
}

/** Inside a transaction: removes those of some documents. */
export async function dropNotChosen(db: Database, ids: readonly Id[]): Promise<void> {
  await settled(db)
    .filter((copy) => ids.includes(idIn(copy)))
    .delete();
}

/** Each once, in one fixed order. */
export function notChosenInOrder(all: readonly NotChosen[]): NotChosen[] {
  const distinct = new Map(all.map((one) => [`${one.side.id} ${canonicalJson(one)}`, one]));
  return [...distinct].sort(([a], [b]) => compareText(a, b)).map(([, one]) => one);
}
