// The page that is killed. It keeps, appends and takes in without rest, and says what was begun and what is kept.
import { Dexie } from 'dexie';
import * as z from 'zod';
import type { NewDraft } from '../../src/ledger/drafts.ts';
import { openJournal } from '../../src/ledger/journal/journal.ts';
import { openLedger } from '../../src/ledger/ledger.ts';
import type { Ledger } from '../../src/ledger/ledger-face.ts';
import { copyingIn } from '../../src/ledger/mirror/copying.ts';
import { openBrowserMirror } from '../../src/ledger/mirror/mirror.ts';
import { openLibrary, type OpenedLibrary, type SecondCopy } from '../../src/ledger/open-library.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Begun, Kept, Findings, Work } from './work.ts';

z.config({ jitless: true });

declare global {
  /** Both reach the test before the next step begins only by chance: the test kills in between. */
  function tellBegun(begun: Begun): void;
  function tellKept(kept: Kept): void;
  function tellOpen(): void;
  var workbench: { work: (kind: Work, trial: number) => Promise<void>; find: () => Promise<Findings> };
}

const LIBRARY = 'torture';
const OLD_RECORDS = 800;
const BATCH = 200;

/** Whether what is kept now stands in two places; otherwise the bench says "Kept once only". */
let isTwice = () => true;
const tellKeptTwice = (kept: Kept) => {
  if (isTwice()) tellKept(kept);
};

/** The library as the bench opens it, with its journal and its second copy. */
async function open(): Promise<OpenedLibrary> {
  const journal = openJournal(new Worker('journal.js', { type: 'module', name: LIBRARY }));
  const openMirror = async () => {
    const mirror = await openBrowserMirror();
    return mirror && copyingIn(() => new Worker('copy.js', { type: 'module' }), mirror, LIBRARY);
  };
  const opened = await openLibrary({ name: LIBRARY }, { openMirror, journal });
  isTwice = () => opened.copyTroubles().length === 0;
  return opened;
}

const reedDraft = (label: string): Extract<NewDraft, { kind: 'reed' }> => ({
  kind: 'reed',
  label,
  styleId: 'long',
  state: 'scraping',
  tags: [],
});

/** Invented. */
const passDraft = (reedId: string, index: number) => ({
  kind: 'pass' as const,
  reedId,
  index,
  remedies: [],
  readings: Array.from({ length: 20 }, (_, i) => ({
    blade: 'A' as const,
    fromTipMm: i,
    across: 0,
    thicknessMm: (20 + i) / 100,
    repeat: 0,
    flag: 'ok' as const,
    role: 'station' as const,
  })),
});

/** Two reeds whose notes are always changed together, to the same number. */
async function twins(ledger: Ledger): Promise<[Reed, Reed]> {
  const reeds = (await ledger.documents('reed')).filter(({ label }) => label.startsWith('twin'));
  if (reeds.length === 2) return [reeds[0]!, reeds[1]!];
  const { steps } = await ledger.keep([reedDraft('twin 1'), reedDraft('twin 2')], 'twins');
  return [steps[0]!.after as Reed, steps[1]!.after as Reed];
}

async function keepForEver(ledger: Ledger): Promise<void> {
  let [one, two] = await twins(ledger);
  for (let n = Number(one.note ?? 0) + 1; ; n++) {
    tellBegun({ what: 'twins', n });
    const { steps } = await ledger.keep(
      [
        { ...one, note: `${n}` },
        { ...two, note: `${n}` },
      ],
      'note',
    );
    tellKeptTwice({ what: 'twins', n });
    one = steps[0]!.after as Reed;
    two = steps[1]!.after as Reed;
  }
}

async function appendForEver(ledger: Ledger): Promise<void> {
  const [{ id: reedId }] = await twins(ledger);
  const stations = [{ blade: 'A' as const, fromTipMm: 2, across: 0, role: 'station' as const }];
  const startedAt = ledger.now();
  const round = {
    kind: 'round' as const,
    reedId,
    passIndex: 0,
    plan: 'Spot',
    stations,
    about: {},
    startedAt,
  };
  const { steps } = await ledger.keep([round], 'round');
  const roundId = steps[0]!.after.id;
  const append = async (n: number) => {
    const id = ledger.newId();
    tellBegun({ what: 'act', id });
    await ledger.appendAct({
      act: 'taken',
      id,
      roundId,
      station: stations[0]!,
      thicknessMm: (1 + (n % 60)) / 100,
      flag: 'ok',
    });
    tellKeptTwice({ what: 'act', id });
  };
  // A hand faster than the disk: three keys are always under way.
  for (let n = 0; ; n += 3) await Promise.all([append(n), append(n + 1), append(n + 2)]);
}

/** A batch of reeds and acts that can only be there whole. */
async function batchOf(ledger: Ledger, name: string) {
  const at = ledger.now();
  const deviceId = ledger.newId();
  const stamp = { formatVersion: 1 as const, createdAt: at, updatedAt: at, versions: { [deviceId]: 1 } };
  const documents = Array.from({ length: BATCH }, (_, i) => ({
    ...reedDraft(`${i}`),
    ...stamp,
    id: ledger.newId(),
    tags: [name],
  }));
  const acts = Array.from({ length: BATCH }, (_, i) => ({
    act: 'noted' as const,
    id: ledger.newId(),
    roundId: documents[0]!.id,
    deviceId,
    seq: i + 1,
    at,
    text: name,
  }));
  return { documents, acts };
}

async function importForEver(ledger: Ledger, trial: number): Promise<void> {
  for (let n = 0; ; n++) {
    const name = `batch ${trial}.${n}`;
    const batch = await batchOf(ledger, name);
    tellBegun({ what: 'batch', name });
    await ledger.merge(batch);
    tellKeptTwice({ what: 'batch', name });
  }
}

/** Takes in, again and again, an other side of every reed of one batch: all disagree, or none does. */
async function mergeForEver(ledger: Ledger, trial: number): Promise<void> {
  const name = `merged ${trial}`;
  const batch = await batchOf(ledger, name);
  await ledger.merge(batch);
  for (let n = 1; ; n++) {
    const device = ledger.newId();
    tellBegun({ what: 'sides', name, n });
    const documents = batch.documents.map((one) => ({ ...one, note: `${n}`, versions: { [device]: 1 } }));
    await ledger.merge({ documents, acts: [] });
    tellKeptTwice({ what: 'sides', name, n });
  }
}

/** Makes reeds, puts them into the bin, and removes them for good. */
async function purgeForEver(ledger: Ledger): Promise<void> {
  for (let n = 0; ; n++) {
    const { steps } = await ledger.keep([reedDraft(`out ${n}`)], 'reed');
    const { id } = steps[0]!.after;
    await ledger.remove([id], 'bin');
    tellBegun({ what: 'purged', id });
    await ledger.purge([id]);
    tellKeptTwice({ what: 'purged', id });
  }
}

/** As `keepForEver`, with a piece of the second copy for every change: many small ones are put together at an opening. */
async function copyForEver(ledger: Ledger, copy: SecondCopy | undefined): Promise<void> {
  const flush = () => copy?.mirroring.flush();
  await Promise.all([
    keepForEver(ledger),
    (async () => {
      for (;;) await Promise.all([flush(), new Promise((done) => setTimeout(done, 20))]);
    })(),
  ]);
}

async function migrateForEver(trial: number): Promise<void> {
  for (let n = 0; ; n++) {
    const name = `old ${trial}.${n}`;
    await leaveOldLibrary(name);
    tellBegun({ what: 'old', name });
    const ledger = await openLedger({ name });
    ledger.close();
    tellKeptTwice({ what: 'old', name });
  }
}

async function leaveOldLibrary(name: string): Promise<void> {
  const ids = await openLedger({ name: 'ids' });
  const old = new Dexie(name, { chromeTransactionDurability: 'strict' });
  old.version(1).stores({ documents: '&id, kind', acts: '&id, roundId', device: '&key' });
  await old.open();
  const deviceId = ids.newId();
  const reedId = ids.newId();
  const at = ids.now();
  await old.table('documents').bulkAdd(
    Array.from({ length: OLD_RECORDS }, (_, i) => ({
      ...(i % 2 === 0 ? reedDraft(`${i}`) : passDraft(reedId, i)),
      id: i === 0 ? reedId : ids.newId(),
      formatVersion: 0,
      rev: 1,
      deviceId,
      createdAt: at,
      updatedAt: at,
    })),
  );
  ids.close();
  old.close();
}

async function findOld(name: string) {
  const ledger = await openLedger({ name });
  const { live, setAside } = await ledger.read();
  ledger.close();
  const raw = await new Dexie(name).open();
  const copies = await raw.table('copies').count();
  raw.close();
  await Dexie.delete(name);
  return {
    name,
    live: live.reed.length + live.pass.length,
    copies,
    of: OLD_RECORDS,
    setAside: setAside.length,
  };
}

async function find(): Promise<Findings> {
  const { ledger, copy, broughtBack } = await open();
  const { documents, acts, setAside } = await ledger.readWhole();
  await copy?.mirroring.stop();
  ledger.close();
  const notes = documents.flatMap((one) =>
    one.kind === 'reed' && one.label.startsWith('twin') ? [Number(one.note ?? 0)] : [],
  );
  const batches: Record<string, number> = {};
  const sides: Record<string, number[]> = {};
  for (const one of documents) {
    const [name] = one.kind === 'reed' ? one.tags : [];
    if (name === undefined || one.kind !== 'reed') continue;
    batches[name] = (batches[name] ?? 0) + 1;
    if (name.startsWith('merged')) (sides[name] ??= []).push(Number(one.note ?? 0));
  }
  for (const act of acts) if (act.act === 'noted') batches[act.text] = (batches[act.text] ?? 0) + 1;
  const names = (await Dexie.getDatabaseNames()).filter((name) => name.startsWith('old '));
  const old = [];
  for (const name of names) old.push(await findOld(name));
  return {
    twins: notes,
    acts: acts.flatMap((act) => (act.act === 'taken' ? [act.id] : [])),
    batches,
    sides,
    old,
    setAside: setAside.length,
    ids: documents.map(({ id }) => id),
    broughtBack: broughtBack.length > 0,
    batchSize: BATCH,
  };
}

globalThis.workbench = {
  find,
  async work(kind, trial) {
    if (kind === 'migrate') {
      tellOpen();
      return migrateForEver(trial);
    }
    const { ledger, copy } = await open();
    tellOpen();
    if (kind === 'copy') return copyForEver(ledger, copy);
    const works = {
      keep: keepForEver,
      append: appendForEver,
      import: importForEver,
      merge: mergeForEver,
      purge: purgeForEver,
    };
    return works[kind](ledger, trial);
  },
};
