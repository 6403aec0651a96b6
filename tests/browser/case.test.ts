import { expect } from 'chai';
import { fixture, html, nextFrame } from '@open-wc/testing-helpers';
import '../../components/case/case-screen.ts';
import '../../components/keeping/arrivals.ts';
import '../../components/setup/two-sides.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';
import { BARK } from '../../components/case/slot-picture.ts';
import { smallBody } from '../../components/relief/small-bodies.ts';
import { HiddenScene } from '../../components/scene/hidden-scene.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import { keepFirst } from '../../components/store/spare-time.ts';
import { equalLabels } from '../../src/reed/equal-names.ts';
import type { Theme } from '../../components/theme/palette.ts';
import { until } from './until.ts';

async function pixelsOf(image: HTMLImageElement): Promise<ImageData> {
  await image.decode();
  const canvas = document.createElement('canvas');
  Object.assign(canvas, { width: image.naturalWidth, height: image.naturalHeight });
  const paper = canvas.getContext('2d')!;
  paper.drawImage(image, 0, 0);
  return paper.getImageData(0, 0, canvas.width, canvas.height);
}

async function opened() {
  const { store, host } = await emptyLibrary();
  const reed = (label: string, slot?: number, state = 'playing' as const) => ({
    kind: 'reed' as const,
    label,
    styleId: 'long-scrape',
    state,
    tags: [],
    ...(slot !== undefined && { slot }),
  });
  await store.keep([reed('T-1', 1), reed('T-2', 4), reed('T-3')], 'invented');
  const el = document.createElement('bench-case');
  host.append(el);
  await until(() => el.shadowRoot?.querySelector('.slots a'));
  const slots = () =>
    [...el.shadowRoot!.querySelectorAll('.slots > li')].map(
      (slot) => slot.querySelector('.label')?.textContent ?? slot.textContent!.trim(),
    );
  return { el, slots, store };
}

/** Two blades of one thickness, mm. */
const flatBlades = (mm: number) =>
  BARK.map((blade) => ({ ...blade, valuesMm: Array.from(blade.valuesMm, () => mm) }));

/** A small body of two flat blades. */
function flatBody(key: string, mm: number, theme: Theme = 'day'): Promise<string | undefined> {
  return smallBody(key, theme, () => flatBlades(mm));
}

describe('bench-case', () => {
  it('is accessible', async () => {
    await expectAccessible((await opened()).el);
  });

  it('shows the case as it looks with the lid open: reeds in their slots, gaps between them', async () => {
    const { slots } = await opened();
    expect(slots()).to.deep.equal([
      'T-1',
      'slot 2 empty',
      'slot 3 empty',
      'T-2',
      'T-3',
      'slot 6 empty',
      'slot 7 empty',
      'slot 8 empty',
    ]);
  });

  it('asks first what only the maker can decide: two sides of a reed, and two reeds of one label', async () => {
    const { el, store } = await opened();
    const waiting = () => {
      const all = el.shadowRoot!.querySelector('bench-case-aside')!.shadowRoot!.querySelectorAll('li a');
      return [...all].map((one) => [
        one.textContent!.trim().replaceAll('\u2011', '-'),
        one.getAttribute('href'),
      ]);
    };
    expect(waiting().map(([words]) => words)).to.deep.equal(
      ['T-1', 'T-2', 'T-3'].map((one) => `${one}: not read yet`),
    );
    const [here] = store.reeds;
    const [side, twin] = [store.ledger.newId(), store.ledger.newId()];
    await store.keep([{ ...here!, note: 'stiff' }], 'note');
    const documents = [
      { ...here!, note: 'soft', versions: { ...here!.versions, [side]: 1 } },
      { ...here!, id: twin, versions: { [side]: 2 } },
    ];
    await store.ledger.merge({ documents, acts: [] });
    await store.refresh();
    await until(() => waiting().length === 5);
    expect(waiting().slice(0, 3)).to.deep.equal([
      ['T-1: two sides', '#/setup'],
      ['T-1: two reeds have this label', `#/bench/${twin}/notes`],
      ['T-1: not read yet', `#/round/${here!.id}`],
    ]);
    const sides = document.createElement('bench-two-sides');
    el.after(sides);
    const choices = () => sides.shadowRoot!.querySelectorAll('td button').length;
    await until(() => choices() === 2);
    // What is left as it is in the notice of what came is asked of nowhere, now and when the library is opened anew.
    const notice = await fixture(html`<bench-arrivals .store=${store}></bench-arrivals>`);
    const leave = () =>
      [...notice.shadowRoot!.querySelectorAll('button')].find(
        ({ textContent }) => textContent.trim() === 'Leave both',
      );
    await until(() => leave() !== undefined);
    leave()!.click();
    await until(() => !waiting().some(([words]) => words === 'T-1: two reeds have this label'));
    const again = await LibraryStore.over(store.ledger);
    const [left] = equalLabels(store.reeds);
    expect([again.hasLeft(left!.key), again.hasLeft('another')]).to.deep.equal([true, false]);
    again.close();
    // A guest is asked nothing of what is the shared case's.
    store.lent = new Set(store.reeds.map(({ id }) => id));
    await store.refresh();
    await until(() => waiting().length === 0);
    expect(el.shadowRoot!.querySelector('.main')!.textContent).to.contain('Look at');
    await until(() => choices() === 0);
    expect(sides.shadowRoot!.textContent).to.contain('chosen by whoever shares it');
  });

  it('draws reeds as bodies when the page is idle, one not read as bark, and keeps each picture', async () => {
    const { el } = await opened();
    const bodies = () => [...el.shadowRoot!.querySelectorAll<HTMLImageElement>('.slots img')];
    await until(() => bodies().length === 3);
    const [first, second] = bodies();
    expect(first!.src)
      .to.match(/^data:image\/png/)
      .and.to.equal(second!.src);
    const { data } = await pixelsOf(first!);
    const warm = Array.from({ length: data.length / 4 }, (_, k) => data.slice(4 * k, 4 * k + 4)).filter(
      ([red, , blue, alpha]) => alpha! > 200 && red! - blue! > 50,
    );
    // Bark is yellow-brown: more of it than the cork alone.
    expect(warm.length).to.be.above(0.12 * (data.length / 4));
  });

  it('draws a body the same whatever was drawn before it', async () => {
    const alone = await flatBody('alone', 0.4);
    const [thin, dark, after] = await Promise.all([
      flatBody('thin', 0.1),
      flatBody('dark', 0.4, 'dark'),
      flatBody('after others', 0.4),
    ]);
    expect(after === alone).to.equal(true);
    expect(new Set([thin, dark, alone]).size).to.equal(3);
  });

  it('frames a body alike, as soon as it is there and long after, alone and after a longer one', async () => {
    const [early, late] = [new HiddenScene(190, 150), new HiddenScene(190, 150)];
    early.show(flatBlades(0.4), 'hundredths', 'day');
    const soon = early.scene.snapshot(2).toDataURL();
    late.show(
      flatBlades(0.1).map((blade) => ({ ...blade, ysMm: Array.from(blade.ysMm, (y) => 1.4 * y) })),
      'hundredths',
      'day',
    );
    await nextFrame();
    await nextFrame();
    late.show(flatBlades(0.4), 'hundredths', 'day');
    const after = late.scene.snapshot(2).toDataURL();
    early.close();
    late.close();
    expect(after === soon).to.equal(true);
  });

  it('draws no body while a change is being kept', async () => {
    let kept = () => undefined as unknown;
    keepFirst(new Promise((resolve) => (kept = () => resolve(undefined))));
    let isDrawn = false;
    const body = flatBody('in spare time', 0.3).then(() => (isDrawn = true));
    for (let k = 0; k < 20; k++) await new Promise((resolve) => requestIdleCallback(resolve));
    expect(isDrawn).to.equal(false);
    kept();
    await body;
  });
});
