import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { emulateMedia, setViewport } from '@web/test-runner-commands';
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
  await waitUntil(() => card()?.querySelector('svg'), 'the card is drawn');
  return { el, card: card()! };
}

describe('bench-lesson', () => {
  it('is accessible, and compares the two reeds in words', async () => {
    const { el } = await shown();
    expect(el.shadowRoot!.querySelector('.say')!.textContent).to.match(/K.117/);
    // Each is chosen on the side where it is drawn.
    const chosen = [...el.shadowRoot!.querySelectorAll('select')].map((one) => one.selectedOptions[0]!.label);
    const drawn = el.shadowRoot!.querySelector('bench-lesson-pair')!.shadowRoot!;
    const names = [...drawn.querySelectorAll('figcaption')].map(({ textContent }) => textContent!.trim());
    expect(chosen.map((label) => label.split(',')[0])).to.deep.equal(['M-142', 'K-117']);
    expect(names.map((name) => name.replace('\u2011', '-'))).to.deep.equal(['M-142', 'K-117']);
    await expectAccessible(el);
  });

  it('numbers the places to touch on the example', async () => {
    const { card } = await shown();
    const steps = card.querySelectorAll('li').length;
    expect(steps).to.be.within(1, 3);
    expect(card.querySelectorAll('.touch').length).to.be.at.least(steps);
    expect(card.querySelectorAll('svg')).to.have.length(2);
  });

  it('lays no number over a figure of the card', async () => {
    const { card } = await shown();
    const discs = [...card.querySelectorAll('.number-disc')].map((disc) => disc.getBoundingClientRect());
    expect(discs.length).to.be.above(0);
    const figures = [...card.querySelectorAll('text:not([class])')].map((one) => one.getBoundingClientRect());
    for (const disc of discs)
      for (const figure of figures) {
        const down = Math.min(disc.bottom, figure.bottom) - Math.max(disc.top, figure.top);
        const across = Math.min(disc.right, figure.right) - Math.max(disc.left, figure.left);
        // A box of text is a fifth higher than its digits, above and below.
        if (across > 0) expect(down).to.be.below(0.22 * figure.height);
      }
  });

  it('shows three differences and the one deed so large that they are read from two metres', async () => {
    await setViewport({ width: 1440, height: 900 });
    const { el } = await shown();
    el.style.display = 'block';
    const pair = el.shadowRoot!.querySelector('bench-lesson-pair')!;
    await waitUntil(() => pair.shadowRoot!.querySelectorAll('text.far').length > 0);
    const titles = [...pair.shadowRoot!.querySelectorAll('text.far')].filter(
      (one) => !one.querySelector('tspan'),
    );
    expect(titles.length).to.be.within(1, 3);
    // Capitals, 0.716 of the size of letters of this kind, under 16 minutes of arc from 2 m (ISO 9241-303, from memory):
    // 2000 mm x tan(16') = 9.31 mm; a CSS pixel is a 96th of an inch.
    const leastPx = (((2000 * Math.tan((16 / 60) * (Math.PI / 180))) / 25.4) * 96) / 0.716;
    for (const shownFar of [...titles, el.shadowRoot!.querySelector('.deed')!])
      expect(parseFloat(getComputedStyle(shownFar).fontSize)).to.be.at.least(leastPx - 0.2);
    expect(pair.shadowRoot!.querySelectorAll('bench-blade-map')).to.have.length(4);
    await setViewport({ width: 800, height: 600 });
  });

  it('shows the usual reed where none is chosen, marked as such', async () => {
    const { host } = await emptyLibrary();
    const el = document.createElement('bench-lesson');
    host.append(el);
    const pair = () => el.shadowRoot?.querySelector('bench-lesson-pair')?.shadowRoot;
    await waitUntil(() => pair()?.querySelectorAll('.usual bench-blade-map').length === 4);
    expect(pair()!.textContent).to.contain('Choose the example');
    await expectAccessible(el);
    host.remove();
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
