import { describe, expect, it } from 'vitest';
import type { LibraryDocument } from '../../../shared/library.ts';
import { binGroups } from '../../../src/ledger/bin.ts';
import { differences } from '../../../src/ledger/differences.ts';
import { openTestLedger, reedDraft } from './open-test-ledger.ts';

/** Invented. */
const passDraft = (reedId: string, index: number) => ({
  kind: 'pass' as const,
  reedId,
  index,
  wetness: 'wet' as const,
  takenAt: '2026-03-01T09:00:00+01:00',
  readings: [],
  remedies: [],
});

describe('the bin', () => {
  it('names what went in together after its reed, last act first, and gives it back together', async () => {
    const ledger = await openTestLedger();
    const { steps } = await ledger.keep([reedDraft('K-1'), reedDraft('K-2')], 'reeds');
    const [one, two] = steps.map(({ after }) => after.id) as [string, string];
    const passes = (await ledger.keep([passDraft(one, 0), passDraft(one, 1)], 'passes')).steps;
    await ledger.remove([...passes.map(({ after }) => after.id), one], 'bin');
    await ledger.remove([two], 'bin');
    const labelOf = (id: string) => ({ [one]: 'K-1', [two]: 'K-2' })[id];
    const groups = binGroups((await ledger.read()).deleted, labelOf);
    expect(groups.map(({ name }) => name)).toEqual(['K-2', 'K-1, and with it 2 passes']);
    await ledger.restore(
      groups[1]!.documents.map(({ id }) => id),
      'back',
    );
    const { live, deleted } = await ledger.read();
    expect([live.reed.length, live.pass.length, deleted.length]).toEqual([1, 2, 1]);
    ledger.close();
  });

  it('shows a round of invented examples as one line', async () => {
    const ledger = await openTestLedger();
    const drafts = ['X-1', 'X-2', 'X-3'].map((label) => ({ ...reedDraft(label), invented: true as const }));
    const { steps } = await ledger.keep(drafts, 'examples');
    await ledger.remove(
      steps.map(({ after }) => after.id),
      'clear',
    );
    const groups = binGroups((await ledger.read()).deleted, () => undefined);
    expect(groups.map(({ name, documents }) => [name, documents.length])).toEqual([['Invented examples', 3]]);
    ledger.close();
  });

  it('has a name for a pass whose reed is gone', async () => {
    const ledger = await openTestLedger();
    const { steps } = await ledger.keep([passDraft(ledger.newId(), 3)], 'pass');
    await ledger.remove([steps[0]!.after.id], 'bin');
    const [group] = binGroups((await ledger.read()).deleted, () => undefined);
    expect(group?.name).toBe('a reed that is gone, pass 3');
    ledger.close();
  });
});

describe('two sides of a document', () => {
  const stamp = {
    formatVersion: 1 as const,
    id: '0192f0c0-0000-7000-8000-000000000001',
    createdAt: '2026-03-01T09:00:00+01:00',
    updatedAt: '2026-03-01T09:00:00+01:00',
  };
  const pass = (over: Partial<LibraryDocument>, device: string) =>
    ({ ...passDraft(stamp.id, 1), ...stamp, versions: { [device]: 1 }, ...over }) as LibraryDocument;

  it('shows the fields that differ and no others', () => {
    const reading = (thicknessMm: number) => ({
      blade: 'A' as const,
      fromTipMm: 2,
      across: 0,
      role: 'station' as const,
      flag: 'ok' as const,
      thicknessMm,
    });
    const sides = [
      pass({ note: 'bright', readings: [reading(0.2), reading(0.3)] } as never, 'a'),
      pass(
        { overallLengthMm: 71.5, readings: [reading(0.2)], updatedAt: '2026-03-02T09:00:00+01:00' } as never,
        'b',
      ),
    ];
    expect(differences(sides)).toEqual([
      { field: 'note', values: ['bright', '–'] },
      { field: 'overall length mm', values: ['–', '71.5'] },
      { field: 'readings', values: ['2, of them 1 only here', '1, of them 0 only here'] },
    ]);
  });

  it('says that one side is in the bin', () => {
    const sides = [pass({}, 'a'), pass({ deletedAt: '2026-03-03T09:00:00+01:00' }, 'b')];
    expect(differences(sides)).toEqual([
      { field: 'in the bin since', values: ['–', '2026-03-03T09:00:00+01:00'] },
    ]);
  });

  it('finds nothing between equal ones', () => {
    expect(differences([pass({}, 'a'), pass({}, 'b')])).toEqual([]);
  });
});
