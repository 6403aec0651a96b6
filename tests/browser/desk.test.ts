import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import '../../components/bench/desk.ts';
import type { Question } from '../../components/frame/routes.ts';
import { inventedBench } from './invented-bench.ts';
import { until } from './until.ts';

/** A promise that is kept when it is let go. */
function held() {
  let letGo: () => void = () => undefined;
  const promise = new Promise<void>((resolve) => (letGo = resolve));
  return { promise, letGo };
}

/** The desk with M-142, whose favourites are fitted only when they are let through. */
async function desk(question: Question) {
  const { store, host, idOf } = await inventedBench();
  const reedId = idOf('M-142');
  const favourites = held();
  const alone = held();
  const { bench } = store.models;
  Object.assign(store.models, {
    bench: async (...given: Parameters<typeof bench>) => {
      if (given[0].id !== reedId) await favourites.promise;
      const fitted = await bench(...given);
      if (given[0].id === reedId) alone.letGo();
      return fitted;
    },
  });
  const el = document.createElement('bench-desk');
  el.route = { at: 'bench', reedId, question };
  host.append(el);
  const shown = (name: string) => el.shadowRoot!.querySelector(name);
  return { host, el, shown, idOf, isFitted: alone.promise, letThrough: favourites.letGo };
}

describe('bench-desk', () => {
  it('shows what is there before the favourites are fitted, and sets it beside them then', async () => {
    const { host, shown, letThrough } = await desk('there');
    await until(() => shown('bench-there-now'));
    const now = shown('bench-there-now') as HTMLElementTagNameMap['bench-there-now'];
    const { benched } = now;
    expect(benched!.reed.label).to.equal('M-142');
    expect(now.favourites).to.have.length(0);
    letThrough();
    await until(() => now.favourites.length > 0);
    expect(now.benched, 'fitted once').to.equal(benched);
    host.remove();
  });

  it('prints no figure of a reed before its faults are known: the first value that is seen stays', async () => {
    const { store, host, idOf } = await inventedBench();
    const searched = held();
    const { faults } = store.models;
    Object.assign(store.models, {
      faults: async (...given: Parameters<typeof faults>) => {
        await searched.promise;
        return faults(...given);
      },
    });
    const el = document.createElement('bench-desk');
    const reedId = idOf('M-142');
    el.route = { at: 'bench', reedId, question: 'there' };
    host.append(el);
    const passes = store.passesOf(reedId);
    const fitted = await store.models.bench(store.reed(reedId)!, passes);
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(el.shadowRoot!.querySelector('bench-there-now')).to.equal(null);
    expect(el.shadowRoot!.querySelector('[role=status]')!.textContent).to.equal('Fitting');
    searched.letGo();
    await until(() => el.shadowRoot!.querySelector('bench-there-now'));
    const settled = await store.models.settled(store.reed(reedId)!, passes);
    expect(settled.model, 'its forgotten clip widens the fit').not.to.equal(fitted.model);
    const shown = el.shadowRoot!.querySelector('bench-there-now')!.benched!;
    expect(shown.model).to.equal(settled.model);
    host.remove();
  });

  it('never shows what another reed had under the name of the next', async () => {
    const { host, el, shown, letThrough, idOf } = await desk('there');
    letThrough();
    await until(() => shown('bench-there-now'));
    el.route = { at: 'bench', reedId: idOf('K-117'), question: 'there' };
    const label = () =>
      (shown('bench-there-now') as HTMLElementTagNameMap['bench-there-now'] | null)?.benched!.reed.label;
    await until(() => shown('h1')?.textContent === 'K-117');
    expect(label()).to.be.oneOf([undefined, 'K-117']);
    await until(() => label() === 'K-117');
    host.remove();
  });

  it('waits for the favourite where the question is about it', async () => {
    const { host, el, shown, isFitted, letThrough } = await desk('beside');
    await isFitted;
    await new Promise((resolve) => setTimeout(resolve));
    await el.updateComplete;
    expect(shown('[role=status]')?.textContent).to.equal('Fitting');
    expect(shown('bench-beside')).to.equal(null);
    letThrough();
    await waitUntil(() => shown('bench-beside'), 'beside');
    host.remove();
  });
});
