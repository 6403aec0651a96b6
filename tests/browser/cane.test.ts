import { expect } from 'chai';
import { until } from './until.ts';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/cane/cane-screen.ts';
import type { CaneScreen } from '../../components/cane/cane-screen.ts';
import { parseRoute, type CaneRoute } from '../../components/frame/routes.ts';
import { STARTING_GOUGE } from '../../src/cane/wished-gouge.ts';
import { expectAccessible } from './accessible.ts';
import { deepText } from './deep-text.ts';
import { emptyLibrary } from './library.ts';

async function screen() {
  location.hash = '#/cane';
  const { store, host } = await emptyLibrary();
  const el = document.createElement('bench-cane');
  host.append(el);
  const follow = () => (el.route = parseRoute(location.hash) as CaneRoute);
  addEventListener('hashchange', follow);
  await until(() => el.shadowRoot?.querySelector('h1'));
  const close = () => {
    removeEventListener('hashchange', follow);
    location.hash = '';
    host.remove();
  };
  return { store, el, close };
}
const button = (root: ShadowRoot | null | undefined, words: RegExp) =>
  [...(root?.querySelectorAll('button') ?? [])].find((one) => words.test(one.textContent ?? ''));
const part = <E extends HTMLElement>(el: CaneScreen, name: string) => el.shadowRoot!.querySelector<E>(name)!;

/** Makes something in the dialog, by the keys. */
async function make(el: CaneScreen, words: RegExp, name: string) {
  button(el.shadowRoot, words)!.click();
  await el.updateComplete;
  await sendKeys({ type: name });
  await sendKeys({ press: 'Enter' });
}

describe('bench-cane', () => {
  it('goes from an empty page over a lot to a piece whose readings are kept as they are typed', async () => {
    const { store, el, close } = await screen();
    expect(el.shadowRoot!.textContent).to.contain('No lots. A reed needs none.');
    await expectAccessible(el);
    await make(el, /New lot/, 'Q');
    await until(() => part(el, 'bench-lot-panel'));
    await until(() => button(part(el, 'bench-lot-panel').shadowRoot, /New piece/));
    button(part(el, 'bench-lot-panel').shadowRoot, /New piece/)!.click();
    await until(() => part(el, 'bench-piece-panel')?.shadowRoot?.querySelector('bench-gouge-readings'));
    const grid = part(el, 'bench-piece-panel').shadowRoot!.querySelector('bench-gouge-readings')!;
    await until(() => grid.shadowRoot!.querySelector('td input'));
    for (const [i, typed] of ['48', '59', '43'].entries()) {
      // One after the other as fast as the keys come: none may wait for the one before to be kept.
      const cell = grid.shadowRoot!.querySelectorAll<HTMLInputElement>('td input')[i]!;
      cell.focus();
      await sendKeys({ type: typed });
      await sendKeys({ press: 'Tab' });
    }
    await until(() => store.snapshot.live.piece[0]?.readings.length === 3);
    expect(
      store.snapshot.live.piece[0]!.readings.map(({ arcMm, thicknessMm }) => [arcMm, thicknessMm]),
    ).to.deep.equal([
      [-4.3, 0.48],
      [0, 0.59],
      [4.3, 0.43],
    ]);
    const panel = part(el, 'bench-piece-panel');
    await until(() =>
      /Side 1 less side 2\s*\+?5\.0/.test((panel.shadowRoot!.textContent ?? '').replace(/\s+/g, ' ')),
    );
    expect(panel.shadowRoot!.textContent).to.contain('Inner curve');
    // Whether 5 hundredths are too much is the maker's own limit, and nothing else.
    for (const [mostSideDifferenceMm, words] of [
      [0.001, 'The sides differ by more than your limit.'],
      [0.2, 'The sides are equal enough.'],
    ] as const) {
      await store.choose({ gouge: { ...STARTING_GOUGE, mostSideDifferenceMm } });
      await until(() => panel.shadowRoot!.textContent?.includes(words));
    }
    await expectAccessible(el);
    await store.undo();
    await until(() => store.snapshot.live.piece[0]!.readings.length === 2);
    close();
  });

  it('says which field of a lot cannot be taken, and keeps nothing', async () => {
    const { store, el, close } = await screen();
    await make(el, /New lot/, 'R\u202e');
    // A name with more than can be seen is asked about, and kept once that is out.
    await until(() => deepText(el).includes('a mark that turns the direction of writing'));
    expect(store.snapshot.live.lot).to.deep.equal([]);
    await sendKeys({ press: 'Enter' });
    await until(() => store.snapshot.live.lot[0]?.code === 'R');
    await until(() => part(el, 'bench-lot-panel')?.shadowRoot?.querySelector('form'));
    const root = part(el, 'bench-lot-panel').shadowRoot!;
    root.querySelector<HTMLInputElement>('[name=diameterMinMm]')!.value = '104';
    button(root, /^Keep$/)!.click();
    await until(() => root.querySelector('.problem'));
    expect(root.querySelector('.problem')!.textContent).to.contain('from 6 to 20');
    expect(root.activeElement?.getAttribute('name')).to.equal('diameterMinMm');
    root.querySelector<HTMLInputElement>('[name=diameterMinMm]')!.value = '10,4';
    button(root, /^Keep$/)!.click();
    await until(() => store.snapshot.live.lot[0]?.diameterMinMm === 10.4);
    close();
  });

  it('shows the drift of the gouge over pieces, in words and with limits', async () => {
    const { store, el, close } = await screen();
    const lotId = store.ledger.newId();
    const centres = [59, 58.9, 59.1, 59, 59.1, 59.2, 59.4, 59.6, 59.9, 60.3];
    await store.keep(
      [
        { kind: 'lot', id: lotId, code: 'Q' },
        ...centres.map((hundredths, i) => ({
          kind: 'piece' as const,
          lotId,
          number: i + 1,
          readings: [{ alongMm: 37, arcMm: 0, thicknessMm: hundredths / 100 }],
        })),
      ],
      'pieces',
    );
    location.hash = `#/cane/lot/${lotId}`;
    await until(() => part(el, 'bench-lot-panel')?.shadowRoot?.querySelector('bench-gouge-drift'));
    const drift = part(el, 'bench-lot-panel').shadowRoot!.querySelector('bench-gouge-drift')!;
    drift.closest('details')!.open = true;
    await until(() => drift.shadowRoot!.querySelector('svg'));
    expect(drift.shadowRoot!.textContent).to.contain('six rising or falling');
    const chart = part(el, 'bench-lot-chart').shadowRoot!;
    await until(() => chart.querySelector('[data-stop][tabindex="0"]'));
    chart.querySelector<SVGElement>('[data-stop][tabindex="0"]')!.focus();
    await sendKeys({ press: 'ArrowLeft' });
    await until(() => chart.activeElement?.getAttribute('aria-label')?.includes('piece 9; middle 59.9'));
    await until(() => el.shadowRoot!.textContent!.includes('Piece 9'));
    expect(chart.querySelectorAll('tbody tr')).to.have.length(10);
    expect(
      part(el, 'bench-lot-flow').shadowRoot!.querySelector('tbody tr')!.textContent!.replace(/\s+/g, ' '),
    ).to.contain('gouged 10');
    await expectAccessible(el);
    close();
  });

  it('takes a shape as typed and lays another over it', async () => {
    const { store, el, close } = await screen();
    await make(el, /New shape/, 'narrow');
    await until(() => part(el, 'bench-shape-panel')?.shadowRoot?.querySelector('textarea'));
    await store.keep(
      [
        {
          kind: 'shape',
          name: 'wide',
          widths: [
            { fromFoldMm: 0, widthMm: 7.4 },
            { fromFoldMm: 26, widthMm: 4.7 },
          ],
        },
      ],
      'a shape',
    );
    await el.updateComplete;
    const root = part(el, 'bench-shape-panel').shadowRoot!;
    await until(() => root.querySelector('select'));
    const area = root.querySelector('textarea')!;
    area.value = '0 7.00\n26 4.40\n20 5';
    button(root, /^Keep$/)!.click();
    await until(() => root.querySelector('.problem'));
    expect(root.querySelector('.problem')!.textContent).to.contain('must rise');
    area.value = '0 7,00\n26 4,40';
    button(root, /^Keep$/)!.click();
    await until(() =>
      store.snapshot.live.shape.some(({ widths }) => widths.length === 2 && widths[0]!.widthMm === 7),
    );
    const select = root.querySelector('select')!;
    select.selectedIndex = 1;
    select.dispatchEvent(new Event('change'));
    await until(() => root.querySelector('.aside'));
    expect(root.querySelector('.aside')!.textContent).to.contain('0.40 mm narrower than wide');
    await expectAccessible(el);
    close();
  });
});
