import { fixture, html } from '@open-wc/testing-helpers';
import { expect } from 'chai';
import '../../components/keeping/lost-copies.ts';
import type { LostCopies } from '../../components/keeping/lost-copies.ts';
import { openLedger } from '../../src/ledger/ledger.ts';
import { openBrowserMirror } from '../../src/ledger/mirror/mirror.ts';
import { openLibrary } from '../../src/ledger/open-library.ts';
import { expectAccessible } from './accessible.ts';
import { LibraryStore } from '../../components/store/library-store.ts';

/** Invented. */
const reed = (label: string) => ({
  kind: 'reed' as const,
  label,
  styleId: 'long',
  state: 'scraping' as const,
  tags: [],
});

let count = 0;

/** A library that has begun anew, and in the browser's private folder the copy of a lost one. */
async function beganAnew() {
  const mirror = (await openBrowserMirror())!;
  const lost = await openLedger({ name: `lost ${Date.now()} ${count++}` });
  const ids = (await lost.keep([reed('K-1')], 'reed')).steps.map(({ after }) => after.id);
  await mirror.copy(lost, { ids, rounds: [] });
  lost.close();
  const name = `anew ${Date.now()} ${count++}`;
  const anew = await openLedger({ name });
  await anew.keep([reed('N-1')], 'reed');
  anew.close();
  const { ledger, copy } = await openLibrary({ name });
  return { store: await LibraryStore.over(ledger, copy), copy: copy!, mirror };
}

const shown = (store: LibraryStore) =>
  fixture<LostCopies>(html`<bench-lost-copies .store=${store}></bench-lost-copies>`);

const press = (el: LostCopies, words: string) =>
  [...el.shadowRoot!.querySelectorAll('button')].find((one) => one.textContent?.includes(words))!.click();

async function until(holds: () => boolean | Promise<boolean>) {
  while (!(await holds())) await new Promise((resolve) => setTimeout(resolve, 10));
}

describe('bench-lost-copies', () => {
  afterEach(async () => {
    const mirror = (await openBrowserMirror())!;
    for (const device of await mirror.devices()) await mirror.drop(device);
  });

  it('is accessible', async () => {
    const { store } = await beganAnew();
    const el = await shown(store);
    expect(el.shadowRoot!.textContent).to.contain('lost one thing');
    await expectAccessible(el);
  });

  it('brings the lost library back beside what is there', async () => {
    const { store } = await beganAnew();
    const el = await shown(store);
    press(el, 'Bring it back');
    await until(() => store.reeds.length === 2);
    expect(store.reeds.map(({ label }) => label)).to.deep.equal(['K-1', 'N-1']);
    await until(() => el.shadowRoot!.querySelector('section') === null);
  });

  it('leaves the copy where it is when the maker says so', async () => {
    const { store, copy, mirror } = await beganAnew();
    const el = await shown(store);
    const { deviceId } = copy.lost[0]!;
    press(el, 'Leave it');
    await until(() => el.shadowRoot!.querySelector('section') === null);
    expect(await mirror.devices()).to.include(deviceId);
    expect(store.reeds.map(({ label }) => label)).to.deep.equal(['N-1']);
  });
});
