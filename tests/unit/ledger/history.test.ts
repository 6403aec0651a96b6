import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { LibraryDocument } from '../../../shared/library.ts';
import type { Reed } from '../../../shared/reed.ts';
import { canonicalJson } from '../../../src/ledger/canonical.ts';
import { ConflictError } from '../../../src/ledger/errors.ts';
import { openHistory } from '../../../src/ledger/history.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { openTestLedger, reedDraft } from './open-test-ledger.ts';

/** Content of every live document: what a maker sees, without the stamps that every write renews. */
async function seen(ledger: Ledger): Promise<string> {
  const content = (documents: readonly LibraryDocument[]) =>
    documents.map((document) => ({ ...document, versions: {}, updatedAt: '', edits: undefined }));
  return canonicalJson(content(await ledger.documents('reed')));
}

const gesture = fc.oneof(
  fc.record({ do: fc.constant('make' as const), word: fc.string({ maxLength: 5 }) }),
  fc.record({ do: fc.constant('note' as const), which: fc.nat(), word: fc.string({ maxLength: 5 }) }),
  fc.record({ do: fc.constant('remove' as const), which: fc.nat() }),
);

it('takes back and does again any series of changes, step by step', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(gesture, { minLength: 1, maxLength: 12 }), async (gestures) => {
      const ledger = await openTestLedger();
      const history = openHistory(ledger);
      const states = [await seen(ledger)];
      for (const one of gestures) {
        const reeds = await ledger.documents('reed');
        const reed = one.do === 'make' ? undefined : reeds[one.which % reeds.length];
        if (one.do === 'make') await history.keep([reedDraft(`M-${one.word}`.trim())], 'make');
        else if (!reed) continue;
        else if (one.do === 'note') await history.keep([{ ...reed, note: one.word }], 'note');
        else await history.remove([reed.id], 'remove');
        states.push(await seen(ledger));
      }
      for (const state of states.slice(0, -1).reverse()) {
        await history.undo();
        expect(await seen(ledger)).toBe(state);
      }
      expect(await history.undo()).toBeUndefined();
      for (const state of states.slice(1)) {
        await history.redo();
        expect(await seen(ledger)).toBe(state);
      }
      expect(history.state().redo).toBeUndefined();
      ledger.close();
    }),
    { numRuns: 25, seed: 5 },
  );
});

it('names what it would undo and redo, and forgets the undone when something new is done', async () => {
  const ledger = await openTestLedger();
  const history = openHistory(ledger);
  await history.keep([reedDraft('M-1')], 'New reed M-1');
  expect(history.state()).toEqual({ undo: 'New reed M-1' });
  await history.undo();
  expect(history.state()).toEqual({ redo: 'New reed M-1' });
  await history.keep([reedDraft('M-2')], 'New reed M-2');
  expect(history.state()).toEqual({ undo: 'New reed M-2' });
  ledger.close();
});

it('leaves a document alone that was changed elsewhere since', async () => {
  const ledger = await openTestLedger();
  const history = openHistory(ledger);
  const { steps } = await history.keep([reedDraft('M-1')], 'New reed');
  await ledger.keep([{ ...(steps[0]!.after as Reed), note: 'elsewhere' }], 'Note');
  await expect(history.undo()).rejects.toThrow(ConflictError);
  expect(await ledger.documents('reed')).toMatchObject([{ note: 'elsewhere' }]);
  ledger.close();
});
