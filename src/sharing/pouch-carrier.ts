import PouchDB from 'pouchdb-core';
import HttpAdapter from 'pouchdb-adapter-http';
import * as z from 'zod';
import { toBase64 } from './base64.ts';
import { boundedFetch } from './bounded-fetch.ts';
import {
  CarrierError,
  type CarriedRow,
  type CarriedRows,
  type Carrier,
  type Sending,
  type Sent,
} from './carrier.ts';

PouchDB.plugin(HttpAdapter);

/** Where a shared case is, and under which name it is used. */
export interface Login {
  readonly address: string;
  readonly name: string;
  readonly password: string;
}

/** How often a server that is held says that it is there. */
const HEARTBEAT_MS = 25_000;
const MOST_AT_ONCE = 200;

const rowSchema = z.object({
  id: z.string().max(1000),
  changes: z.array(z.object({ rev: z.string().max(200) })).min(1),
  deleted: z.boolean().optional(),
  doc: z.unknown().optional(),
});
const lastSchema = z.union([z.string().max(20_000), z.number()]).transform(String);
const changesSchema = z.object({
  results: z.array(rowSchema).max(100_000),
  last_seq: lastSchema,
});
const infoSchema = z.object({
  db_name: z.string(),
  update_seq: lastSchema,
  disk_size: z.unknown().optional(),
  sizes: z.unknown().optional(),
});
const conflictsSchema = z.object({ _conflicts: z.array(z.string().max(200)).max(1000).default([]) });
const allDocsSchema = z.object({
  rows: z.array(
    z.object({
      key: z.string(),
      error: z.string().optional(),
      value: z.object({ deleted: z.boolean().optional() }).nullish(),
    }),
  ),
});
const sentSchema = z.object({
  id: z.string().optional(),
  ok: z.literal(true).optional(),
  rev: z.string().max(200).optional(),
  name: z.string().optional(),
  status: z.number().optional(),
  reason: z.unknown().optional(),
});
const putSchema = z.object({ rev: z.string() });
const markSchema = z.object({ _rev: z.string() });

/** @throws CarrierError where an answer is none of the protocol's. */
function understood<T>(schema: z.ZodType<T>, answer: unknown): T {
  const { success, data } = schema.safeParse(answer);
  if (!success) throw new CarrierError('other');
  return data;
}

/** What the client itself cannot make sense of is an answer that is none of the protocol's. */
async function asked<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof CarrierError || (error instanceof Error && error.name === 'AbortError')) throw error;
    throw new CarrierError('other', error instanceof Error ? error.message : '', { cause: error });
  }
}

function rowOf(row: z.infer<typeof rowSchema>): CarriedRow {
  const { doc, deleted } = row;
  const { success, data } = conflictsSchema.safeParse(doc);
  return {
    id: row.id,
    rev: row.changes[0]?.rev ?? '',
    ...(deleted !== true && doc !== undefined && doc !== null && { document: doc }),
    conflicts: success ? data._conflicts : [],
  };
}

const ofCase = ({ id }: CarriedRow) => !id.startsWith('_');

/** One answer to a request that is held until something has changed. */
function held(db: PouchDB, since: string, signal: AbortSignal): Promise<CarriedRows> {
  return new Promise((resolve, reject) => {
    const rows: CarriedRow[] = [];
    let isGathering = false;
    const live = { live: true, timeout: false, heartbeat: HEARTBEAT_MS, batch_size: MOST_AT_ONCE };
    const feed = db.changes({ ...live, since, include_docs: true, conflicts: true, return_docs: false });
    const stop = () => feed.cancel();
    const end = (work: () => void) => {
      signal.removeEventListener('abort', stop);
      work();
    };
    signal.addEventListener('abort', stop, { once: true });
    void feed.on('change', (row, pending, last) => {
      const { success, data } = rowSchema.safeParse(row);
      if (success) rows.push(rowOf(data));
      if (isGathering) return;
      isGathering = true;
      // All rows of one answer are told of in one go: what follows it is another answer.
      queueMicrotask(() => {
        feed.cancel();
        end(() => resolve({ rows: rows.filter(ofCase), last: String(last), pending: pending ?? 0 }));
      });
    });
    feed.then(
      () => end(() => reject(signal.reason)),
      (error: unknown) => end(() => void asked(Promise.reject(error)).catch(reject)),
    );
    if (signal.aborted) stop();
  });
}

function sentOf(answer: unknown, id: string): Sent {
  const { ok, rev, name, status, reason } = understood(sentSchema, answer);
  if (ok) return { id, is: 'there', ...(rev !== undefined && { rev }) };
  // What is there already has the same content: it is named by it.
  if (status === 409 || name === 'conflict') return { id, is: 'there' };
  return { id, is: 'refused', why: typeof reason === 'string' ? reason.slice(0, 200) : '' };
}

function withPicture({ bytes, ...document }: Sending): unknown {
  if (!bytes) return document;
  const picture = { content_type: 'application/octet-stream', data: toBase64(bytes) };
  return { ...document, _attachments: { picture } };
}

const marked = (device: string) => `_local/${device}`;

/** Where this device notes on the server that it has sent something. */
function marksOf(db: PouchDB): Pick<Carrier, 'mark' | 'setMark'> {
  return {
    async mark(device) {
      try {
        understood(markSchema, await asked(db.get(marked(device))));
        return true;
      } catch (error) {
        if (error instanceof CarrierError && error.trouble === 'address') return false;
        throw error;
      }
    },
    async setMark(device) {
      try {
        understood(putSchema, await asked(db.put({ _id: marked(device) })));
      } catch (error) {
        // A device that was copied from this one has set it, or this one before.
        if (!(error instanceof CarrierError && error.trouble === 'conflict')) throw error;
      }
    },
  };
}

/** Changes up to now, or a part of them. */
async function changesOf(
  db: PouchDB,
  since: string,
  limit: number,
  signal: AbortSignal,
): Promise<CarriedRows> {
  const feed = db.changes({ since, limit, batch_size: limit, include_docs: true, conflicts: true });
  const stop = () => feed.cancel();
  let pending = 0;
  void feed.on('change', (_, left) => (pending = left ?? 0));
  signal.addEventListener('abort', stop, { once: true });
  const answer = await asked(feed).finally(() => signal.removeEventListener('abort', stop));
  signal.throwIfAborted();
  const { results, last_seq } = understood(changesSchema, answer);
  return { rows: results.map(rowOf).filter(ofCase), last: last_seq, pending };
}

/** A request that ends by itself, or with the carrier. */
const withEnd = ({ signal, ...options }: RequestInit, end?: AbortSignal): RequestInit => {
  const signals = [signal, end].filter((one) => one != null);
  return { ...options, ...(signals.length > 0 && { signal: AbortSignal.any(signals) }) };
};

/**
 * A shared case through PouchDB's client of the replication protocol, nothing of it kept in the browser.
 *
 * @param end Ends every request that is under way: nobody waits for a server that does not answer.
 */
export function openCarrier({ address, name, password }: Login, end?: AbortSignal): Carrier {
  const db = new PouchDB(address, {
    adapter: 'http',
    skip_setup: true,
    auth: { username: name, password },
    fetch: (url, options) => boundedFetch(url, withEnd(options, end)),
  });
  return {
    ...marksOf(db),
    async greet() {
      const { sizes, disk_size } = understood(infoSchema, await asked(db.info()));
      // The first version has one size, where later ones have several. Source: CouchDB documentation, "Version 2.0.0".
      if (sizes === undefined && disk_size !== undefined) throw new CarrierError('version');
    },
    changes: (since, limit, signal) => changesOf(db, since, limit, signal),
    hold: (since, signal) => held(db, since, signal),
    async remembers(id) {
      const { rows } = understood(allDocsSchema, await asked(db.allDocs({ keys: [id] })));
      return rows.some(({ error }) => error === undefined);
    },
    async missing(ids) {
      const { rows } = understood(allDocsSchema, await asked(db.allDocs({ keys: ids })));
      return new Set(rows.filter(({ error, value }) => error || value?.deleted).map(({ key }) => key));
    },
    async send(documents) {
      const answers = await asked(db.bulkDocs(documents.map(withPicture)));
      return documents.map(({ _id }, i) => sentOf(answers[i], _id));
    },
    branches: (lost) => Promise.all(lost.map(({ id, rev }) => asked(db.get(id, { rev })))),
    async close(lost) {
      await asked(db.bulkDocs(lost.map(({ id, rev }) => ({ _id: id, _rev: rev, _deleted: true }))));
    },
    read: (id) => asked(db.get(id)),
    async picture(id) {
      const picture = await asked(db.getAttachment(id, 'picture'));
      return picture instanceof Blob ? new Uint8Array(await picture.arrayBuffer()) : new Uint8Array(picture);
    },
  };
}
