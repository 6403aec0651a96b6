import { fixture, html } from '@open-wc/testing-helpers';
import { expect } from 'chai';
import '../../components/keeping/arrivals.ts';
import type { Arrivals } from '../../components/keeping/arrivals.ts';
import type { LibraryStore } from '../../components/store/library-store.ts';
import type { NewDraft } from '../../src/ledger/drafts.ts';
import { lastCounts } from '../../src/ledger/late-acts.ts';
import type { Round } from '../../shared/round.ts';
import { expectAccessible } from './accessible.ts';
import { deepText } from './deep-text.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

const STATION = { blade: 'B' as const, fromTipMm: 10, across: 0.4, role: 'station' as const };

/** Invented. */
const reed = (label: string): Extract<NewDraft, { kind: 'reed' }> => ({
  kind: 'reed',
  label,
  styleId: 'long',
  state: 'scraping',
  tags: [],
});
const pass = (reedId: string, index: number, takenAt: string): Extract<NewDraft, { kind: 'pass' }> => ({
  kind: 'pass',
  reedId,
  index,
  takenAt,
  remedies: [],
  readings: [{ ...STATION, thicknessMm: 0.5, repeat: 0, flag: 'ok' }],
});

/** What was kept, the first two. */
type Kept = { readonly id: string } & Round;

async function madeIn(store: LibraryStore, ...drafts: NewDraft[]) {
  const { steps } = await store.ledger.keep(drafts, 'made');
  await store.refresh();
  return steps.map(({ after }) => after) as unknown as [Kept, Kept];
}

/** A round that became a pass, and a reading of it that came from another device after that. */
async function withLateReading(store: LibraryStore) {
  const [{ id: reedId }] = await madeIn(store, reed('K-1'));
  const round: NewDraft = {
    kind: 'round',
    reedId,
    passIndex: 0,
    plan: 'Spot',
    stations: [STATION],
    about: {},
    startedAt: store.ledger.now(),
  };
  const [open] = await madeIn(store, round);
  const act = { act: 'taken' as const, roundId: open.id, station: STATION, flag: 'ok' as const };
  const first = await store.ledger.appendAct({ ...act, thicknessMm: 0.5 });
  const [{ id: closedAs }] = await madeIn(store, pass(reedId, 0, store.ledger.now()));
  await store.keep([{ ...open, closedAs, closedWith: lastCounts([first]) }], 'closed');
  const late = { ...first, id: store.ledger.newId(), deviceId: store.ledger.newId(), thicknessMm: 0.53 };
  await store.ledger.merge({ documents: [], acts: [late as typeof first] });
  await store.refresh();
  return reedId;
}

const shown = (store: LibraryStore) =>
  fixture<Arrivals>(html`<bench-arrivals .store=${store}></bench-arrivals>`);
const asks = (el: Arrivals) =>
  el.shadowRoot!.querySelector('section')?.getAttribute('aria-label') ?? undefined;
const words = (el: Arrivals) => deepText(el).replaceAll(/\s+/g, ' ');
const press = (el: Arrivals, words: string) =>
  [...el.shadowRoot!.querySelectorAll('button')].find((one) => one.textContent?.trim() === words)!.click();

describe('bench-arrivals', () => {
  it('is accessible, and silent while nothing waits', async () => {
    const { store } = await emptyLibrary();
    await madeIn(store, reed('K-1'), reed('K-2'));
    const el = await shown(store);
    await until(() => el.updateComplete);
    expect(asks(el)).to.equal(undefined);
    await withLateReading(store);
    await until(() => asks(el) === 'Late readings');
    await expectAccessible(el);
  });

  it('says which readings came late, and takes them into the pass, which can be undone', async () => {
    const { store } = await emptyLibrary();
    const reedId = await withLateReading(store);
    const el = await shown(store);
    await until(() => asks(el) === 'Late readings');
    expect(words(el)).to.match(/readings of one place of a round of K-1 that had become pass 0/);
    expect(words(el)).to.contain('B, 10 mm, right : 50, 53 (in the pass 50)');
    press(el, 'Take them in');
    await until(() => asks(el) === undefined);
    const values = async () =>
      (await store.ledger.passesOf(reedId))[0]!.readings.map(({ thicknessMm }) => thicknessMm);
    expect(await values()).to.deep.equal([0.5, 0.53]);
    await store.undo();
    await until(() => asks(el) === 'Late readings');
    expect(await values()).to.deep.equal([0.5]);
    press(el, 'Leave them out');
    await until(() => asks(el) === undefined);
    expect(await values()).to.deep.equal([0.5]);
  });

  it('asks about two reeds of one label, takes no label that there is, and gives the later one its own', async () => {
    const { store } = await emptyLibrary();
    await madeIn(store, reed('K-1'));
    await madeIn(store, reed('K-1'));
    const el = await shown(store);
    await until(() => asks(el) === 'Reeds of one label');
    const field = el.shadowRoot!.querySelector('input')!;
    expect(field.value).to.equal('K-1 (2)');
    field.value = 'k-1';
    press(el, 'Call it so');
    await until(() => words(el).includes('There is a k-1 already'));
    field.value = 'K-7';
    press(el, 'Call it so');
    await until(() => asks(el) === undefined);
    expect(store.reeds.map(({ label }) => label)).to.deep.equal(['K-1', 'K-7']);
  });

  it('asks about two passes of one number, numbers them, or leaves them and asks no more', async () => {
    const { store } = await emptyLibrary();
    const [one, other] = await madeIn(store, reed('K-1'), reed('K-2'));
    const two = (reedId: string) =>
      ['2026-03-05T09:00:00Z', '2026-03-03T09:00:00Z'].map((takenAt) => pass(reedId, 3, takenAt));
    await madeIn(store, ...two(one.id));
    const el = await shown(store);
    await until(() => asks(el) === 'Passes of one number');
    expect(words(el)).to.contain('K-1 has 2 passes numbered 3');
    press(el, 'Number them so');
    await until(() => asks(el) === undefined);
    expect(store.passesOf(one.id).map(({ index, takenAt }) => [index, takenAt?.slice(8, 10)])).to.deep.equal([
      [3, '03'],
      [4, '05'],
    ]);
    await madeIn(store, ...two(other.id));
    await until(() => asks(el) === 'Passes of one number');
    press(el, 'Leave both');
    await until(() => asks(el) === undefined);
    const again = await shown(store);
    await again.updateComplete;
    await until(() => asks(again) === undefined);
  });

  it('asks about a label with more than can be seen that came from elsewhere, and shows it without that', async () => {
    const { store } = await emptyLibrary();
    await madeIn(store, reed('K\u202e-1'));
    const el = await shown(store);
    await until(() => asks(el) === 'A label with more than can be seen');
    expect(words(el)).to.contain('a mark that turns the direction of writing');
    expect(words(el)).not.to.contain('\u202e');
    press(el, 'Leave that out');
    await until(() => asks(el) === undefined);
    expect(store.reeds.map(({ label }) => label)).to.deep.equal(['K-1']);
  });
});
