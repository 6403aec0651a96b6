import { describe, expect, it } from 'vitest';
import { copyToFolder, lastCopy } from '../../../src/ledger/outside-copies.ts';
import { MemoryFolder } from './memory-folder.ts';
import { openTestLedger, reedDraft } from './open-test-ledger.ts';
import { libraryText, readBackup } from '../../whole-library.ts';

const START = Date.parse('2026-03-01T09:00:00Z');
const day = (count: number) => new Date(START + count * 86_400_000);

describe('copies in a folder', () => {
  it('writes the whole library, one file a day, and keeps the last thirty', async () => {
    const ledger = await openTestLedger();
    const folder = new MemoryFolder('copies');
    folder.files.set('hundredths notes.txt', Uint8Array.of(1));
    await ledger.keep([reedDraft('K-1')], 'reed');
    for (let at = 0; at < 40; at++) await copyToFolder(ledger, folder, day(at));
    await copyToFolder(ledger, folder, new Date(day(39).getTime() + 3_600_000));
    const names = [...folder.files.keys()].filter((name) => name.endsWith('.zip')).sort();
    expect(names).toHaveLength(30);
    const device = ledger.deviceId.slice(-6);
    expect(names.at(-1)).toBe(`hundredths-2026-04-09-1000-${device}.zip`);
    expect(folder.files.has('hundredths notes.txt')).toBe(true);
    const back = await readBackup(folder.files.get(names.at(-1)!)!);
    expect(libraryText(back)).toBe(libraryText(await ledger.readWhole()));
    expect((await lastCopy(ledger))?.to).toBe('folder');
    ledger.close();
  });

  it('lets no older copy go before the new one has been read back', async () => {
    const ledger = await openTestLedger();
    const folder = new MemoryFolder('copies');
    await ledger.keep([reedDraft('K-1')], 'reed');
    for (let at = 0; at < 30; at++) await copyToFolder(ledger, folder, day(at));
    const before = new Map(folder.files);
    folder.change = (bytes) => bytes.with(60, (bytes[60] ?? 0) ^ 1);
    await expect(copyToFolder(ledger, folder, day(30))).rejects.toThrow();
    for (const [name, bytes] of before) expect(folder.files.get(name)).toBe(bytes);
    ledger.close();
  });

  it('leaves what another device has written in the same folder', async () => {
    const [one, other] = [await openTestLedger(), await openTestLedger()];
    const folder = new MemoryFolder('copies');
    for (const ledger of [one, other]) {
      await ledger.keep([reedDraft(`K-${ledger.deviceId}`)], 'reed');
      await copyToFolder(ledger, folder, day(0));
    }
    for (let at = 1; at < 40; at++) await copyToFolder(one, folder, day(at));
    const labels = await Promise.all(
      [...folder.files.values()].map(async (bytes) => (await readBackup(bytes)).documents),
    );
    expect(
      labels.flat().filter((reed) => 'label' in reed && reed.label === `K-${other.deviceId}`),
    ).toHaveLength(1);
    one.close();
    other.close();
  });

  it('removes no later copy when the clock is set back', async () => {
    const ledger = await openTestLedger();
    const folder = new MemoryFolder('copies');
    await ledger.keep([reedDraft('K-1')], 'reed');
    for (let at = 0; at < 30; at++) await copyToFolder(ledger, folder, day(at));
    await copyToFolder(ledger, folder, day(-400));
    expect(folder.files.size).toBe(31);
    ledger.close();
  });

  it('does not write an emptied library over what was kept', async () => {
    const ledger = await openTestLedger();
    const folder = new MemoryFolder('copies');
    expect(await copyToFolder(ledger, folder, day(0))).toBe(false);
    expect(folder.files.size).toBe(0);
    ledger.close();
  });
});
