import { expect } from 'chai';
import { fixtureCleanup, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/history/history-screen.ts';
import type { HistoryScreen } from '../../components/history/history-screen.ts';
import '../../components/rotation/rotation-screen.ts';
import type { LibraryStore } from '../../components/store/library-store.ts';
import { moment } from '../../shared/moment.ts';
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
        at: moment(new Date(Date.now() + 9 * 86_400_000)),
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

const open = (el: Element, selector: string) => (deep<HTMLDetailsElement>(el, selector).open = true);
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
    open(el, '.played');
    deep<HTMLInputElement>(el, 'input[name="minutes"]').focus();
    await sendKeys({ type: '90' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => store.snapshot.live.use.length === 1, 'the playing is kept');
    const chart = deep(el, 'bench-lives-chart').shadowRoot!;
    await waitUntil(
      () => chart.querySelector('tbody')?.textContent?.includes('1.5\u00a0h'),
      'the hours stand in the table',
    );
    const play = chart.querySelector<SVGElement>('[data-stop^="play-"]')!;
    expect(play.getAttribute('aria-label')).to.contain('practice, 1.5\u00a0h');
    chart.querySelector<SVGElement>('[data-stop][tabindex="0"]')!.focus();
    await sendKeys({ press: 'Home' });
    await waitUntil(
      () => chart.activeElement === chart.querySelector('[data-stop^="for-"]'),
      'the engagement is come to',
    );
    // The usual evening of three hours is added for each reed.
    await waitUntil(() =>
      [...chart.querySelectorAll('text')].some(({ textContent }) => textContent === '4.5\u00a0h'),
    );
    expect(chart.querySelector('.card')!.textContent)
      .to.contain('proposed: T-1')
      .and.to.contain('an invented evening');
    await expectAccessible(el);
  });

  it('refuses minutes that cannot be, in words', async () => {
    const { store, el } = await shownWith('bench-rotation');
    open(el, '.played');
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
    await waitUntil(
      () => el.shadowRoot!.querySelector('details') !== null,
      'what can be written stands there',
    );
    for (const folded of el.shadowRoot!.querySelectorAll('details')) folded.open = true;
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
