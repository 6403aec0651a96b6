import { describe, expect, it } from 'vitest';
import { appendEntry, readEntries, type OpenFile } from '../../../src/ledger/journal/entries.ts';
import { takeFiles, type JournalRequest } from '../../../src/ledger/journal/files.ts';
import { openJournal } from '../../../src/ledger/journal/journal.ts';
import { fakeWorker } from '../../fake-worker.ts';

/** Files as the browser keeps them, each open at most once. `room`: bytes that still fit. */
function disk(room = Infinity) {
  const contents = new Map<number, Uint8Array>();
  const held = new Set<number>();
  const open = (number: number): Promise<OpenFile | undefined> => {
    if (held.has(number)) return Promise.resolve(undefined);
    held.add(number);
    const content = () => contents.get(number) ?? new Uint8Array();
    return Promise.resolve({
      getSize: () => content().length,
      read(into, { at }) {
        into.set(content().subarray(at, at + into.length));
        return into.length;
      },
      write(bytes, { at }) {
        const fits = bytes.subarray(0, Math.max(0, room - at));
        contents.set(number, Uint8Array.from([...content().subarray(0, at), ...fits]));
        return fits.length;
      },
      truncate: (size) => void contents.set(number, content().slice(0, size)),
      flush: () => undefined,
      close: () => void held.delete(number),
    });
  };
  return { open, contents, die: () => held.clear() };
}

describe('a journal’s file', () => {
  it('gives back its lines, with one that was cut off spoiling no other', async () => {
    const { open, contents } = disk();
    const file = (await open(0))!;
    appendEntry(file, '{"thickness":"ü"}');
    contents.set(0, contents.get(0)!.slice(0, -3));
    appendEntry(file, '{"b":2}');
    const lines = readEntries(file);
    expect(lines).toHaveLength(2);
    expect(lines[1]).toBe('{"b":2}');
    expect(() => JSON.parse(lines[0]!) as unknown).toThrow();
  });

  it('takes back what does not fit whole, and says so', async () => {
    const file = (await disk(20).open(0))!;
    appendEntry(file, '0123456789');
    expect(() => appendEntry(file, '0123456789')).toThrow(/space/);
    expect(readEntries(file)).toEqual(['0123456789']);
  });
});

describe('the files of all windows', () => {
  it('are one a window, and what a dead window left is read until it is forgotten', async () => {
    const { open, die } = disk();
    const [one, two] = [await takeFiles(open), await takeFiles(open)];
    one!.grant({ wish: 'append', line: 'a' });
    two!.grant({ wish: 'append', line: 'b' });
    expect((await takeFiles(open))!.grant({ wish: 'read' })).toEqual([]);
    die();
    const next = (await takeFiles(open))!;
    expect(next.grant({ wish: 'read' })).toEqual(['a', 'b']);
    die();
    const later = (await takeFiles(open))!;
    expect(later.grant({ wish: 'read' })).toEqual(['a', 'b']);
    later.grant({ wish: 'forget', count: 0 });
    die();
    expect((await takeFiles(open))!.grant({ wish: 'read' })).toEqual([]);
  });

  it('are not emptied of what came after the count', async () => {
    const { open, die } = disk();
    const files = (await takeFiles(open))!;
    files.grant({ wish: 'append', line: 'a' });
    files.grant({ wish: 'append', line: 'b' });
    files.grant({ wish: 'forget', count: 1 });
    die();
    expect((await takeFiles(open))!.grant({ wish: 'read' })).toEqual(['a', 'b']);
  });

  it('are refused to a window when all are held', async () => {
    const { open } = disk();
    for (let window = 0; window < 8; window++) expect(await takeFiles(open)).toBeDefined();
    expect(await takeFiles(open)).toBeUndefined();
  });
});

describe('a journal', () => {
  const never = new Promise<readonly string[]>(() => undefined);
  const after = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

  it('holds nothing up when its worker does not answer, and says so', async () => {
    const journal = openJournal(fakeWorker(() => never).worker, 1);
    await journal.append('a');
    expect(journal.trouble()).toMatch(/does not answer/);
  });

  it('holds nothing up when its worker cannot start, and does not ask it again', async () => {
    const { worker, requests, die } = fakeWorker(() => never);
    const journal = openJournal(worker);
    const first = journal.append('a');
    die('no such file');
    await first;
    expect(await journal.left()).toEqual([]);
    expect(journal.trouble()).toBe('no such file');
    expect(requests).toHaveLength(1);
  });

  it('says what the worker threw, until an entry is written again', async () => {
    let room = false;
    const { worker } = fakeWorker(() => (room ? [] : Promise.reject(new Error('The disk is full.'))));
    const journal = openJournal(worker);
    await journal.append('a');
    expect(journal.trouble()).toBe('The disk is full.');
    room = true;
    await journal.append('b');
    expect(journal.trouble()).toBe(undefined);
  });

  it('forgets nothing as long as what a dead window left could not be read, and says so', async () => {
    const { worker, requests } = fakeWorker(({ wish }: JournalRequest) => (wish === 'read' ? never : []));
    const journal = openJournal(worker, 1);
    expect(await journal.left()).toEqual([]);
    await journal.append('a');
    await journal.forget(journal.count());
    expect(requests.map(({ wish }) => wish)).toEqual(['read', 'append']);
    expect(journal.trouble()).toMatch(/does not answer/);
  });

  it('waits longer for what was left than for a change to be written', async () => {
    const { worker } = fakeWorker(() => after(100).then(() => ['a']));
    const journal = openJournal(worker, 25);
    await journal.append('b');
    expect(journal.trouble()).toMatch(/does not answer/);
    expect(await journal.left()).toEqual(['a']);
    expect(journal.trouble()).toBe(undefined);
  });
});
