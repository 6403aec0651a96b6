import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { emulateMedia } from '@web/test-runner-commands';
import '../../components/lesson/lesson-screen.ts';
import { inventedReeds } from '../../demo/scenario/invented-reeds.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';

async function shown() {
  const { store, host } = await emptyLibrary();
  const random = (count: number) => crypto.getRandomValues(new Uint8Array(count));
  await store.keep(inventedReeds(new Date(), random), 'invented');
  const idOf = (label: string) => store.reeds.find((reed) => reed.label === label)!.id;
  const el = document.createElement('bench-lesson');
  el.reedIds = [idOf('K-117'), idOf('M-142')];
  host.append(el);
  const card = () => el.shadowRoot!.querySelector('bench-lesson-card')?.shadowRoot;
  await waitUntil(() => card()?.querySelector('svg'), 'the card is drawn', { timeout: 20_000 });
  return { el, card: card()! };
}

describe('bench-lesson', () => {
  it('is accessible, and compares the two reeds in words', async () => {
    const { el } = await shown();
    expect(el.shadowRoot!.querySelector('.say')!.textContent).to.match(/K.117/);
    await expectAccessible(el);
  });

  it('numbers the places to touch on the example', async () => {
    const { card } = await shown();
    const steps = card.querySelectorAll('li').length;
    expect(steps).to.be.within(1, 3);
    expect(card.querySelectorAll('.touch').length).to.be.at.least(steps);
    expect(card.querySelectorAll('svg')).to.have.length(2);
  });

  it('prints ten times the true size', async () => {
    const { card } = await shown();
    try {
      await emulateMedia({ media: 'print' });
      const outline = card.querySelector('.outline')!.getBoundingClientRect();
      // The invented tip is 7.0 mm wide; a CSS millimetre is 96 / 25.4 pixels. The line itself is 0.6 mm.
      expect(outline.width / (96 / 25.4)).to.be.closeTo(70, 1);
      // 23.2 mm from the tip to the thread.
      expect(outline.height / (96 / 25.4)).to.be.closeTo(230, 6);
    } finally {
      await emulateMedia({ media: 'screen' });
    }
  });
});
