import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import { afterEach, describe, expect, it } from 'vitest';
import { openLedger } from '../../../src/ledger/ledger.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { openMirror, type Mirror } from '../../../src/ledger/mirror/mirror.ts';
import { openLibrary } from '../../../src/ledger/open-library.ts';
import { startMirroring, type Mirroring } from '../../../src/ledger/mirror/mirroring.ts';
import { bringBack, findLostCopies, leaveCopy } from '../../../src/ledger/mirror/second-copy.ts';
import { MemoryFolder } from './memory-folder.ts';
import {
  freshName,
  openTestLedger,
  reedDraft,
  roundDraft,
  seededBytes,
  tickingClock,
} from './open-test-ledger.ts';
import { libraryText } from '../../whole-library.ts';

const PNG = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);

let seed = 100;
let open: { ledger: Ledger; mirroring: Mirroring }[] = [];
afterEach(async () => {
  for (const { ledger, mirroring } of open) {
    await mirroring.stop();
    ledger.close();
  }
  open = [];
});

/** Opens a library as the page does, with its copy in a folder. */
async function opened(name: string, root: MemoryFolder) {
  const mirror = await openMirror(root);
  const options = { name, clock: tickingClock(), random: seededBytes(seed++), knownCount: mirror.countOf };
  const ledger = await openLedger(options);
  const mirroring = startMirroring(ledger, mirror, { delayMs: 1e6 });
  await mirroring.flush();
  open.push({ ledger, mirroring });
  return { ledger, mirror, mirroring };
}

async function shut({ ledger, mirroring }: { ledger: Ledger; mirroring: Mirroring }) {
  await mirroring.stop();
  ledger.close();
  open = open.filter((one) => one.ledger !== ledger);
}

const textOf = async (ledger: Ledger) => libraryText(await ledger.readWhole());
const copyOf = async (mirror: Mirror, ledger: Ledger) => libraryText(await mirror.read(ledger.deviceId));

/** A reed with a photograph, and a round with two acts. */
async function fill(ledger: Ledger) {
  const { steps } = await ledger.keep([reedDraft('K-1')], 'reed');
  const reedId = steps[0]!.after.id;
  await ledger.keepPhoto({ of: reedId }, PNG, 'photo');
  const round = (await ledger.keep([roundDraft(reedId)], 'round')).steps[0]!.after.id;
  for (const text of ['one', 'two']) await ledger.appendAct({ act: 'noted', roundId: round, text });
  return { reedId, round };
}

describe('the second copy', () => {
  it('holds after each change what the library holds', async () => {
    const { ledger, mirror, mirroring } = await opened(freshName(), new MemoryFolder());
    const { reedId, round } = await fill(ledger);
    await mirroring.flush();
    expect(await copyOf(mirror, ledger)).toBe(await textOf(ledger));
    await ledger.remove([reedId], 'bin');
    await ledger.appendAct({ act: 'noted', roundId: round, text: 'three' });
    await mirroring.flush();
    expect(await copyOf(mirror, ledger)).toBe(await textOf(ledger));
    expect((await mirror.read(ledger.deviceId)).attachments).toEqual((await ledger.readWhole()).attachments);
    expect(await mirror.piecesOf(ledger.deviceId)).toBeGreaterThan(1);
  });

  it('makes good what a window did not get to, and puts its pieces together', async () => {
    const [name, root] = [freshName(), new MemoryFolder()];
    const first = await opened(name, root);
    await fill(first.ledger);
    // The window dies: nothing is flushed.
    first.ledger.close();
    open = [];
    const { ledger, mirror } = await opened(name, root);
    expect(ledger.deviceId).toBe(first.ledger.deviceId);
    expect(await copyOf(mirror, ledger)).toBe(await textOf(ledger));
    expect(await mirror.piecesOf(ledger.deviceId)).toBe(1);
  });

  it('lets a change be kept before the next portion of a whole new copy', async () => {
    const name = freshName();
    const ledger = await openTestLedger({ name });
    await ledger.keep(
      Array.from({ length: 600 }, (_, i) => reedDraft(`K-${i}`)),
      'reeds',
    );
    let [pauses, isKept] = [0, false];
    const mirroring = startMirroring(ledger, await openMirror(new MemoryFolder()), {
      delayMs: 1e6,
      async pause() {
        pauses++;
        if (pauses === 1) await ledger.keep([reedDraft('L-1')], 'in between').then(() => (isKept = true));
      },
    });
    open.push({ ledger, mirroring });
    await mirroring.flush();
    expect(isKept).toBe(true);
    // 600 reeds in portions of 100, and what is no document.
    expect(pauses).toBeGreaterThan(6);
    expect(mirroring.trouble()).toBeUndefined();
  });

  it('does not keep what was removed for good', async () => {
    const { ledger, mirror, mirroring } = await opened(freshName(), new MemoryFolder());
    const { reedId } = await fill(ledger);
    await mirroring.flush();
    await ledger.remove([reedId], 'bin');
    await ledger.purge([reedId]);
    await mirroring.flush();
    const { documents } = await mirror.read(ledger.deviceId);
    expect(documents.map(({ id }) => id)).not.toContain(reedId);
    expect(await copyOf(mirror, ledger)).toBe(await textOf(ledger));
  });

  it('keeps what it could not write for the next time, and says so', async () => {
    const root = new MemoryFolder();
    const { ledger, mirror, mirroring } = await opened(freshName(), root);
    await ledger.keep([reedDraft('K-0')], 'reed');
    await mirroring.flush();
    const folder = root.folders.get('second-copy')!.folders.get(ledger.deviceId)!;
    folder.full = true;
    await fill(ledger);
    await mirroring.flush();
    expect(mirroring.trouble()).toMatchObject({ name: 'QuotaExceededError' });
    folder.full = false;
    await mirroring.flush();
    expect(mirroring.trouble()).toBeUndefined();
    expect(await copyOf(mirror, ledger)).toBe(await textOf(ledger));
  });

  it('gives what is whole when pieces of it are broken', async () => {
    const root = new MemoryFolder();
    const { ledger, mirror, mirroring } = await opened(freshName(), root);
    await ledger.keep([reedDraft('K-1')], 'reed');
    await mirroring.flush();
    await ledger.keep([reedDraft('K-2')], 'reed');
    await mirroring.flush();
    const { files } = root.folders.get('second-copy')!.folders.get(ledger.deviceId)!;
    const last = [...files.keys()].sort().at(-1)!;
    files.set(last, files.get(last)!.slice(0, -20));
    const labels = (await mirror.read(ledger.deviceId)).documents.map((one) => 'label' in one && one.label);
    expect(labels).toEqual(['K-1']);
  });
});

describe('when the browser has lost the library', () => {
  it('offers the copy, and brings back every document, act and picture as it was', async () => {
    const [name, root] = [freshName(), new MemoryFolder()];
    const before = await opened(name, root);
    await fill(before.ledger);
    const text = await textOf(before.ledger);
    await shut(before);
    await Dexie.delete(name);

    const { ledger, mirror, mirroring } = await opened(name, root);
    const lost = await findLostCopies(ledger, mirror, mirroring);
    expect(lost.map(({ deviceId }) => deviceId)).toEqual([before.ledger.deviceId]);
    expect(lost[0]!.report).toMatchObject({ documents: { new: 3, apart: 0 }, acts: { new: 2 } });
    await bringBack(ledger, mirror, lost[0]!.deviceId, mirroring);
    expect(await textOf(ledger)).toBe(text);
    expect((await ledger.readWhole()).attachments).toHaveLength(1);
    expect(await mirror.devices()).toEqual([ledger.deviceId]);
    expect(await copyOf(mirror, ledger)).toBe(text);
  });

  it('is whole again by itself when everything was lost, and says what was brought back', async () => {
    const [name, root] = [freshName(), new MemoryFolder()];
    const before = await opened(name, root);
    await fill(before.ledger);
    const text = await textOf(before.ledger);
    await shut(before);
    await Dexie.delete(name);
    const options = { name, clock: tickingClock(), random: seededBytes(seed++) };
    const { ledger, copy, broughtBack } = await openLibrary(options, { openMirror: () => openMirror(root) });
    open.push({ ledger, mirroring: copy!.mirroring });
    expect(broughtBack).toMatchObject([
      { report: { documents: { new: 3 }, acts: { new: 2 } }, unreadable: [] },
    ]);
    expect(copy!.lost).toEqual([]);
    expect(await textOf(ledger)).toBe(text);
  });

  it('leaves a library that has begun anew as it is until the maker decides', async () => {
    const [name, root] = [freshName(), new MemoryFolder()];
    const before = await opened(name, root);
    await fill(before.ledger);
    await shut(before);
    await Dexie.delete(name);
    const anew = await openTestLedger({ name });
    await anew.keep([reedDraft('N-1')], 'reed');
    anew.close();
    const options = { name, clock: tickingClock(), random: seededBytes(seed++) };
    const { ledger, copy, broughtBack } = await openLibrary(options, { openMirror: () => openMirror(root) });
    open.push({ ledger, mirroring: copy!.mirroring });
    expect(broughtBack).toEqual([]);
    expect((await ledger.documents('reed')).map(({ label }) => label)).toEqual(['N-1']);
    await copy!.bringBack(copy!.lost[0]!.deviceId);
    expect((await ledger.documents('reed')).map(({ label }) => label).sort()).toEqual(['K-1', 'N-1']);
  });

  it('does not offer a copy that was left, and throws none away', async () => {
    const [name, root] = [freshName(), new MemoryFolder()];
    const before = await opened(name, root);
    await fill(before.ledger);
    await shut(before);
    await Dexie.delete(name);
    const { ledger, mirror, mirroring } = await opened(name, root);
    await leaveCopy(ledger, before.ledger.deviceId);
    expect(await findLostCopies(ledger, mirror, mirroring)).toEqual([]);
    expect(await mirror.devices()).toContain(before.ledger.deviceId);
  });

  it('lets a copy go that holds nothing more than the library', async () => {
    const [name, root] = [freshName(), new MemoryFolder()];
    const { ledger, mirror, mirroring } = await opened(name, root);
    const { id } = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after;
    const other = await openTestLedger();
    await mirror.copy({ ...ledger, deviceId: other.deviceId }, { ids: [id], rounds: [] });
    expect(await findLostCopies(ledger, mirror, mirroring)).toEqual([]);
    expect(await mirror.devices()).not.toContain(other.deviceId);
    other.close();
  });
});
