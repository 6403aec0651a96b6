import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import { inventedLibrary } from '../../demo/scenario/invented-library.ts';
import '../../components/alike/alike-screen.ts';
import { knownReeds, type Progress } from '../../components/alike/summaries.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';

async function shown(count: number) {
  const { store, host } = await emptyLibrary();
  if (count > 0) await store.keep(inventedLibrary(new Date('2026-03-10T12:00:00Z'), 5, count), 'invented');
  const el = document.createElement('bench-alike');
  host.append(el);
  await waitUntil(() => el.shadowRoot!.querySelector('h1') !== null, 'it answers');
  return { store, el };
}
const heading = (el: Element) => el.shadowRoot!.querySelector('h1')!.textContent!;

async function workedOut(store: LibraryStore): Promise<Progress[]> {
  const steps: Progress[] = [];
  for await (const step of { [Symbol.asyncIterator]: () => knownReeds(store) }) steps.push(step);
  return steps;
}

describe('bench-alike', () => {
  it('is accessible, and answers of forty reeds', async () => {
    const { el } = await shown(40);
    expect(heading(el)).to.match(/surer than chance/);
    const way = el.shadowRoot!.querySelector('bench-way')!;
    const inside = way.shadowRoot!;
    await waitUntil(() => inside.querySelectorAll('[data-stop]').length > 0, 'every reed is a mark');
    // The two ends of the ruler, between them what parts them, and every reed of the style.
    const placed = way.reeds.map(({ reed }, k) => [way.way!.places[k]!, reed.label] as const);
    const [first, last] = [Math.min, Math.max].map(
      (end) => placed.find(([place]) => place === end(...placed.map(([one]) => one)))![1],
    );
    const captions = [...inside.querySelectorAll('figcaption')].map((one) => one.textContent.trim());
    expect(captions.map((one) => one.replaceAll('\u2011', '-'))).to.deep.equal([
      first,
      'what parts them',
      last,
    ]);
    expect(inside.querySelectorAll('[data-stop]')).to.have.length(placed.length);
    inside.querySelector<SVGElement>('[data-stop][tabindex="0"]')!.focus();
    await sendKeys({ press: 'Home' });
    await waitUntil(() => inside.activeElement?.getAttribute('aria-label')?.startsWith(first!));
    const hand = el.shadowRoot!.querySelector('bench-portraits')!.shadowRoot!;
    expect(hand.querySelectorAll('bench-blade-map').length).to.be.above(0);
    await expectAccessible(el);
  });

  it('says honestly that nothing can be said of few reeds', async () => {
    const { el } = await shown(4);
    expect(heading(el)).to.match(/Nothing can be said yet/);
    const none = await shown(0);
    expect(heading(none.el)).to.match(/no reed has/);
    expect(none.el.shadowRoot!.querySelector('bench-usual-reed a')!.getAttribute('href')).to.equal('#/case');
    await expectAccessible(none.el);
  });

  it('works each reed out once and keeps the figures on this machine', async () => {
    const { store } = await shown(12);
    const reeds = store.snapshot.live.reed;
    expect((await store.ledger.recallOf(reeds.map(({ id }) => id))).size).to.equal(12);
    // Nothing is read or fitted again, here or by the page that opens the library next.
    let asked = 0;
    const passesOf = (id: string) => (asked++, store.ledger.passesOf(id));
    expect(await workedOut(store)).to.deep.equal([]);
    const next = await LibraryStore.over({ ...store.ledger, passesOf });
    await workedOut(next);
    expect(asked).to.equal(0);
    const { id: removed } = reeds[0]!;
    await next.keep([{ ...reeds[1]!, styleId: 'short-scrape' }], 'another style');
    await next.remove([removed], 'bin');
    await next.purge([removed]);
    await workedOut(next);
    expect(asked).to.equal(1);
    expect((await store.ledger.recallOf([removed])).size).to.equal(0);
    next.close();
  });

  it('tells a hand from a tilt by six places read twice', async () => {
    const { el } = await shown(9);
    const portraits = el.shadowRoot!.querySelector('bench-portraits')!;
    await waitUntil(() => portraits.shadowRoot!.querySelector('details') !== null);
    portraits.shadowRoot!.querySelector('details')!.open = true;
    const form = portraits.shadowRoot!.querySelector('bench-turned-form')!;
    const inputs = [...form.shadowRoot!.querySelectorAll('input')];
    const numbers = ['45', '43', '43', '45', '46', '44', '44', '46', '44.1', '42', '42', '44'];
    inputs[0]!.focus();
    for (const number of numbers) {
      await sendKeys({ type: number });
      await sendKeys({ press: 'Tab' });
    }
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => form.shadowRoot!.textContent!.includes('The gauge itself makes a part'));
  });
});
