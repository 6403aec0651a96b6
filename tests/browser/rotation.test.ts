import { expect } from 'chai';
import { fixtureCleanup, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/history/history-screen.ts';
import type { HistoryScreen } from '../../components/history/history-screen.ts';
import '../../components/rotation/rotation-screen.ts';
import type { LibraryStore } from '../../components/store/library-store.ts';
import { MAX_PHOTO_BYTES } from '../../shared/photo.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';

/** Finds through open shadow roots. */
function deep<T extends Element>(root: Element, selector: string): T {
  const found = [
    root.shadowRoot!,
    ...[...root.shadowRoot!.querySelectorAll('*')].flatMap((el) => el.shadowRoot ?? []),
  ]
    .map((tree) => tree.querySelector<T>(selector))
    .find((element) => element !== null);
  if (!found) throw new Error(`nothing is ${selector}`);
  return found;
}

async function shownWith(tag: 'bench-rotation' | 'bench-history', reedId?: string) {
  const { store, host } = await emptyLibrary();
  await store.keep(
    [
      {
        kind: 'reed',
        ...(reedId && { id: reedId }),
        label: 'T-1',
        styleId: 'long-scrape',
        state: 'playing',
        tags: [],
      },
      {
        kind: 'engagement',
        title: 'an invented evening',
        at: '2030-01-01T19:00:00.000+01:00',
        wants: ['intimate'],
      },
    ],
    'invented',
  );
  const el = document.createElement(tag) as HistoryScreen;
  if (reedId) el.reedId = reedId;
  host.append(el);
  await el.updateComplete;
  return { store, el };
}

const newId = async () => (await emptyLibrary()).store.ledger.newId();
const only = (store: LibraryStore) => store.reeds[0]!;

describe('bench-rotation', () => {
  afterEach(() => fixtureCleanup());

  it('is accessible', async () => {
    const { el } = await shownWith('bench-rotation');
    await expectAccessible(el);
  });

  it('keeps a playing that is typed, and counts it', async () => {
    const { store, el } = await shownWith('bench-rotation');
    deep<HTMLInputElement>(el, 'input[name="minutes"]').focus();
    await sendKeys({ type: '90' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => store.snapshot.live.use.length === 1, 'the playing is kept');
    await waitUntil(() => el.shadowRoot!.textContent!.includes('1.5\u00a0h'), 'the hours stand in the table');
  });

  it('refuses minutes that cannot be, in words', async () => {
    const { store, el } = await shownWith('bench-rotation');
    deep<HTMLInputElement>(el, 'input[name="minutes"]').focus();
    await sendKeys({ type: 'long' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => deep(el, '.problem').textContent!.includes('Minutes must be'));
    expect(store.snapshot.live.use).to.have.length(0);
  });

  it('says honestly that nothing can be said of lifetimes yet', async () => {
    const { el } = await shownWith('bench-rotation');
    expect(deep(el, 'bench-lasting-chart').shadowRoot!.textContent).to.match(/Nothing can be said/);
  });
});

describe('bench-history', () => {
  it('is accessible', async () => {
    const { el } = await shownWith('bench-history', await newId());
    await expectAccessible(el);
  });

  it('keeps tags, and a photograph that is one', async () => {
    const { store, el } = await shownWith('bench-history', await newId());
    deep<HTMLInputElement>(el, 'input[name="tags"]').focus();
    await sendKeys({ type: 'soft, tour, soft' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => only(store).tags.length === 2, 'the tags are kept once each');
    const file = deep<HTMLInputElement>(el, 'input[type="file"]');
    const give = (bytes: BlobPart) => {
      const data = new DataTransfer();
      data.items.add(new File([bytes], 'lamp.png', { type: 'image/png' }));
      file.files = data.files;
      file.dispatchEvent(new Event('change'));
    };
    give('this is text');
    await waitUntil(() => deep(el, 'bench-photo-strip').shadowRoot!.textContent!.includes('no JPEG'));
    give(new Uint8Array(MAX_PHOTO_BYTES + 100_000));
    await waitUntil(() =>
      deep(el, 'bench-photo-strip').shadowRoot!.textContent!.includes('has 8.1 MB; 8 MB is the most'),
    );
    const canvas = new OffscreenCanvas(4, 4);
    canvas.getContext('2d')!.fillRect(0, 0, 4, 4);
    give(await canvas.convertToBlob({ type: 'image/png' }));
    await waitUntil(() => store.snapshot.live.photo.length === 1, 'the photograph is kept');
    await waitUntil(() => deep(el, 'bench-photo-strip').shadowRoot!.querySelector('img') !== null);
  });
});
