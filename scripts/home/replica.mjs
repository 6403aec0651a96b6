// A database of a shared case on disk: documents with their revisions, one line a revision, appended and never altered.
// A stand-in for Apache CouchDB with the part of its protocol that the bench uses, to try a shared case and to test it.
import { createHash } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fdatasyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  truncateSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';

const generationOf = (rev) => Number.parseInt(rev, 10);

/** The winner first: in use, then of the highest generation, then by its text. Source: CouchDB 3 documentation, "Conflicts". */
const byRank = (a, b) =>
  Number(a.deleted) - Number(b.deleted) ||
  generationOf(b.rev) - generationOf(a.rev) ||
  (a.rev < b.rev ? 1 : -1);

/** The whole lines of a file; a last one that was cut off is taken away. */
function linesOf(file) {
  if (!existsSync(file)) return [];
  const bytes = readFileSync(file);
  const end = bytes.lastIndexOf(10) + 1;
  if (end < bytes.length) truncateSync(file, end);
  return bytes.subarray(0, end).toString('utf8').split('\n').filter(Boolean);
}

/** A picture apart from its document. */
function withStubs(body) {
  if (!body._attachments) return body;
  const stubs = Object.entries(body._attachments).map(([name, { content_type, data = '' }]) => [
    name,
    {
      content_type,
      digest: `md5-${createHash('md5').update(data).digest('base64')}`,
      length: Math.floor((data.length * 3) / 4),
      stub: true,
    },
  ]);
  return { ...body, _attachments: Object.fromEntries(stubs) };
}

export class Replica {
  /** Leaves of each document. */
  #leaves = new Map();
  #locals = new Map();
  /** Names in the order of their last change; the number of a change is its place, from 1. */
  #changes = [];
  #lastOf = new Map();
  #waiting = new Set();
  #file;

  /** @param {string} [path] of the file; in memory only where it is left out */
  constructor(path) {
    if (path === undefined) return;
    mkdirSync(dirname(path), { recursive: true });
    for (const line of linesOf(path)) this.#apply(JSON.parse(line));
    this.#file = openSync(path, 'a');
  }

  get sequence() {
    return this.#changes.length;
  }
  get count() {
    return this.#leaves.size;
  }

  #apply({ local, id, rev, parent, deleted, body }) {
    if (local !== undefined) return void this.#locals.set(local, { rev, body });
    const leaves = (this.#leaves.get(id) ?? []).filter((leaf) => leaf.rev !== parent && leaf.rev !== rev);
    this.#leaves.set(id, [...leaves, { rev, deleted, body }].sort(byRank));
    this.#changes.push(id);
    this.#lastOf.set(id, this.#changes.length);
  }

  #append(entries) {
    if (entries.length === 0) return;
    if (this.#file !== undefined) {
      writeSync(this.#file, entries.map((entry) => `${JSON.stringify(entry)}\n`).join(''));
      fdatasyncSync(this.#file);
    }
    for (const entry of entries) this.#apply(entry);
    for (const wake of [...this.#waiting]) wake();
  }

  leavesOf(id) {
    return this.#leaves.get(id) ?? [];
  }

  /** A document as it is read: its winner, or one revision of it. */
  read(id, rev) {
    const leaves = this.leavesOf(id);
    const leaf = rev === undefined ? leaves[0] : leaves.find((one) => one.rev === rev);
    if (!leaf || (rev === undefined && leaf.deleted)) return undefined;
    return { ...withStubs(leaf.body), _id: id, _rev: leaf.rev, ...(leaf.deleted && { _deleted: true }) };
  }

  picture(id, name) {
    const data = this.leavesOf(id)[0]?.body._attachments?.[name]?.data;
    return data === undefined ? undefined : Buffer.from(data, 'base64');
  }

  /**
   * Writes documents, each or none of it.
   *
   * @param {(doc: object, old: object | undefined) => void} check throws what the answer says of a document
   */
  write(documents, check, newEdits = true) {
    const entries = [];
    const answers = documents.map((document) => {
      const { _id: id, _rev: before, _deleted: deleted = false, _revisions: revisions, ...body } = document;
      const leaves = this.leavesOf(id);
      const isFree = leaves.length === 0 || (before === undefined && leaves[0].deleted);
      const old = newEdits && leaves.find(({ rev }) => rev === before);
      if (newEdits && !isFree && !old) return { id, error: 'conflict', reason: 'Document update conflict.' };
      try {
        check(document, this.read(id, old ? before : undefined));
      } catch (refusal) {
        const [[error, reason]] = Object.entries(refusal);
        return { id, error, reason };
      }
      const parent = newEdits ? before : revisions?.ids[1] && `${revisions.start - 1}-${revisions.ids[1]}`;
      const from = newEdits ? (before ?? (isFree ? leaves[0]?.rev : undefined)) : parent;
      const hash = createHash('md5')
        .update(JSON.stringify([from, deleted, body]))
        .digest('hex');
      const rev = newEdits ? `${(from ? generationOf(from) : 0) + 1}-${hash}` : before;
      entries.push({ id, rev, ...(from && { parent: from }), deleted, body });
      return { ok: true, id, rev };
    });
    this.#append(entries);
    return answers;
  }

  readLocal(id) {
    const local = this.#locals.get(id);
    return local && { ...local.body, _id: id, _rev: local.rev };
  }

  writeLocal(id, { _rev: before, _id: _, ...body }) {
    const known = this.#locals.get(id);
    if (known?.rev !== before) return { error: 'conflict', reason: 'Document update conflict.' };
    const rev = `0-${Number(known?.rev.slice(2) ?? 0) + 1}`;
    this.#append([{ local: id, rev, body }]);
    return { ok: true, id, rev };
  }

  /** Rows of what has changed after a number, each document once. */
  changes({ since, limit = Infinity, docs = false, conflicts = false }) {
    const results = [];
    let last = Math.min(since, this.sequence);
    while (last < this.sequence && results.length < limit) {
      const id = this.#changes[last++];
      if (this.#lastOf.get(id) !== last) continue;
      const [winner, ...others] = this.leavesOf(id);
      const lost = others.filter(({ deleted }) => !deleted).map(({ rev }) => rev);
      const doc = docs && {
        ...this.read(id, winner.rev),
        ...(conflicts && lost.length > 0 && { _conflicts: lost }),
      };
      results.push({
        seq: last,
        id,
        changes: [{ rev: winner.rev }],
        ...(winner.deleted && { deleted: true }),
        ...(doc && { doc }),
      });
    }
    const pending = this.#changes.slice(last).filter((id, i) => this.#lastOf.get(id) === last + i + 1).length;
    return { results, last_seq: last, pending };
  }

  /** Resolves when something is written, or is given up. */
  waitForChange(signal) {
    return new Promise((resolve) => {
      const end = () => {
        this.#waiting.delete(end);
        resolve();
      };
      this.#waiting.add(end);
      signal.addEventListener('abort', end, { once: true });
    });
  }

  close() {
    if (this.#file !== undefined) closeSync(this.#file);
    this.#file = undefined;
  }
}
