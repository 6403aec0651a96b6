import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reed } from '../../../shared/reed.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { openTestLedger, reedDraft, roundDraft } from './open-test-ledger.ts';
import { idOf, reedOf } from './random-libraries.ts';
import { libraryText } from '../../whole-library.ts';

/** Two devices that hold the same reed. */
async function twoWithOne(draft: ReturnType<typeof reedDraft> & Partial<Reed> = reedDraft('K-1')) {
  const [laptop, tablet] = [await openTestLedger(), await openTestLedger()];
  await laptop.keep([draft], 'reed');
  await tablet.merge(await laptop.readWhole());
  return { laptop, tablet };
}

const reed = async (ledger: Ledger) => (await ledger.documents('reed'))[0]!;
const change = async (ledger: Ledger, fields: Partial<Reed>) =>
  ledger.keep([{ ...(await reed(ledger)), ...fields }], 'change');

async function exchange(a: Ledger, b: Ledger) {
  await a.merge(await b.readWhole());
  await b.merge(await a.readWhole());
}

const disagreements = async (ledger: Ledger) => (await ledger.read()).disagreements.length;

describe('two devices that changed one document', () => {
  it('do not disagree about different fields', async () => {
    const { laptop, tablet } = await twoWithOne();
    await change(laptop, { note: 'soft' });
    await change(tablet, { tags: ['loud'], state: 'playing' });
    await exchange(laptop, tablet);
    for (const ledger of [laptop, tablet]) {
      expect(await disagreements(ledger)).toBe(0);
      expect(await reed(ledger)).toMatchObject({ note: 'soft', tags: ['loud'], state: 'playing' });
    }
    expect(await reed(laptop)).toEqual(await reed(tablet));
    // What is written on has seen both, and is the only one from then on.
    await change(laptop, { purpose: 'concert' });
    await tablet.merge(await laptop.readWhole());
    expect(await reed(tablet)).toMatchObject({ note: 'soft', state: 'playing', purpose: 'concert' });
    expect((await tablet.readWhole()).documents).toHaveLength(1);
  });

  it('do not disagree about the same change, nor about a field taken away by both', async () => {
    const { laptop, tablet } = await twoWithOne({ ...reedDraft('K-1'), note: 'old' });
    for (const ledger of [laptop, tablet]) {
      const { note: _, ...bare } = await reed(ledger);
      await ledger.keep([{ ...bare, tags: ['same'] }], 'change');
    }
    await exchange(laptop, tablet);
    expect(await disagreements(laptop)).toBe(0);
    expect(await reed(laptop)).not.toHaveProperty('note');
    expect(await reed(laptop)).toEqual(await reed(tablet));
  });

  it('are asked about a field that was set to different values, with all else as each had it', async () => {
    const { laptop, tablet } = await twoWithOne();
    await change(laptop, { note: 'soft', purpose: 'concert' });
    await change(tablet, { note: 'hard' });
    await exchange(laptop, tablet);
    for (const ledger of [laptop, tablet]) expect(await disagreements(ledger)).toBe(1);
    const [sides] = (await laptop.read()).disagreements;
    expect(sides!.map((side) => (side as Reed).note).sort()).toEqual(['hard', 'soft']);
  });

  it('are asked when one put it into the bin and the other wrote on it', async () => {
    const { laptop, tablet } = await twoWithOne();
    await laptop.remove([(await reed(laptop)).id], 'bin');
    await change(tablet, { note: 'still good' });
    await exchange(laptop, tablet);
    expect(await disagreements(laptop)).toBe(1);
    expect((await reed(laptop)).note).toBe('still good');
  });

  it('agree when both put it into the bin', async () => {
    const { laptop, tablet } = await twoWithOne();
    for (const ledger of [laptop, tablet]) await ledger.remove([(await reed(ledger)).id], 'bin');
    await exchange(laptop, tablet);
    expect(await disagreements(laptop)).toBe(0);
    expect((await laptop.read()).deleted).toHaveLength(1);
  });

  it('keep a later change of one, whose field the other has not touched', async () => {
    const { laptop, tablet } = await twoWithOne();
    await change(laptop, { note: 'one' });
    await exchange(laptop, tablet);
    await change(tablet, { note: 'two' });
    await change(laptop, { purpose: 'concert' });
    await exchange(laptop, tablet);
    expect(await reed(laptop)).toMatchObject({ note: 'two', purpose: 'concert' });
    expect(await disagreements(tablet)).toBe(0);
  });

  it('disagree as before where an older program did not say which fields it wrote', async () => {
    const ledger = await openTestLedger();
    const documents = [reedOf(1, { [idOf(901)]: 1 }, 'here'), reedOf(1, { [idOf(902)]: 1 }, 'there')];
    await ledger.merge({ documents, acts: [] });
    expect(await disagreements(ledger)).toBe(1);
    const same = [reedOf(2, { [idOf(901)]: 1 }, 'same'), reedOf(2, { [idOf(902)]: 1 }, 'same')];
    expect((await ledger.merge({ documents: same, acts: [] })).documents.apart).toBe(0);
    expect(await disagreements(ledger)).toBe(1);
  });

  it('count as one round for what is read into it', async () => {
    const { laptop, tablet } = await twoWithOne();
    const round = (await laptop.keep([roundDraft((await reed(laptop)).id)], 'round')).steps[0]!.after;
    await tablet.merge(await laptop.readWhole());
    await laptop.keep([{ ...round, plan: 'Full' } as never], 'plan');
    await tablet.keep([{ ...round, invented: true } as never], 'mark');
    await exchange(laptop, tablet);
    await laptop.appendAct({ act: 'noted', roundId: round.id, text: 'still open' });
    expect(await laptop.actsOf(round.id)).toHaveLength(1);
  });
});

const FIELDS = ['note', 'purpose', 'ownNumber'] as const;
type Field = (typeof FIELDS)[number];

/** A device in the mind of the test: what it has seen, and each field's value with the writes that set it. */
interface Mind {
  readonly seen: Set<string>;
  /** For each field, values that stand, by the write that set them. */
  readonly values: Map<Field, Map<string, string>>;
}

const newMind = (): Mind => ({ seen: new Set(), values: new Map(FIELDS.map((field) => [field, new Map()])) });

/** A register with several values for every field: the textbook one. Source: Shapiro et al. 2011, INRIA RR-7506, from memory. */
function unite(into: Mind, from: Mind): void {
  for (const field of FIELDS) {
    const [here, there] = [into.values.get(field)!, from.values.get(field)!];
    const joint = new Map([
      ...[...here].filter(([write]) => there.has(write) || !from.seen.has(write)),
      ...[...there].filter(([write]) => here.has(write) || !into.seen.has(write)),
    ]);
    into.values.set(field, joint);
  }
  for (const write of from.seen) into.seen.add(write);
}

const isApart = ({ values }: Mind) => [...values.values()].some((field) => new Set(field.values()).size > 1);

const step = fc.oneof(
  fc.record({
    do: fc.constant('set' as const),
    on: fc.nat(2),
    field: fc.constantFrom(...FIELDS),
    to: fc.constantFrom('1', '2', '3'),
  }),
  fc.record({ do: fc.constant('carry' as const), on: fc.nat(2), from: fc.nat(2) }),
);

it('agrees with the textbook register over any walk of three devices, and ends equal on all', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 4, maxLength: 16 }), async (steps) => {
      const ledgers = [await openTestLedger(), await openTestLedger(), await openTestLedger()];
      const minds = [newMind(), newMind(), newMind()];
      await ledgers[0]!.keep([reedDraft('K-1')], 'reed');
      for (const other of ledgers.slice(1)) await other.merge(await ledgers[0]!.readWhole());
      let writes = 0;
      const carry = async (to: number, from: number) => {
        await ledgers[to]!.merge(await ledgers[from]!.readWhole());
        unite(minds[to]!, minds[from]!);
      };
      for (const one of steps) {
        const [ledger, mind] = [ledgers[one.on]!, minds[one.on]!];
        if (one.do === 'carry') await carry(one.on, one.from);
        // A disagreement is asked about before it is written on.
        else if (!isApart(mind) && (await reed(ledger))[one.field] !== one.to) {
          await change(ledger, { [one.field]: one.to });
          const write = `${writes++}`;
          mind.values.set(one.field, new Map([[write, one.to]]));
          mind.seen.add(write);
        }
        expect(await disagreements(ledger)).toBe(Number(isApart(mind)));
        if (isApart(mind)) continue;
        for (const field of FIELDS)
          expect((await reed(ledger))[field]).toBe([...mind.values.get(field)!.values()][0]);
      }
      for (const [to, from] of [
        [0, 1],
        [1, 2],
        [2, 0],
        [0, 1],
        [1, 2],
        [2, 0],
      ] as const)
        await carry(to, from);
      const texts = await Promise.all(ledgers.map(async (ledger) => libraryText(await ledger.readWhole())));
      expect(new Set(texts).size).toBe(1);
      expect(await ledgers[0]!.read().then(({ live }) => live.reed)).toEqual(
        await ledgers[2]!.read().then(({ live }) => live.reed),
      );
      for (const ledger of ledgers) ledger.close();
    }),
    { numRuns: 40, seed: 12 },
  );
});
