import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { sendKeys, setViewport } from '@web/test-runner-commands';
import '../../components/grids/grids-page.ts';
import type { GridsPage } from '../../components/grids/grids-page.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';

async function page() {
  const { store, host } = await emptyLibrary();
  const el = document.createElement('bench-grids');
  host.append(el);
  await waitUntil(() => el.shadowRoot?.querySelector('bench-grid-rows-table'));
  const table = el.shadowRoot!.querySelector('bench-grid-rows-table')!;
  const picker = el.shadowRoot!.querySelector('bench-station-picker')!;
  await table.updateComplete;
  await picker.updateComplete;
  return { store, host, el, table, picker };
}
const own = ({ store }: Awaited<ReturnType<typeof page>>) => store.snapshot.live.grid;
const field = (root: HTMLElement, name: string) =>
  root.shadowRoot!.querySelector<HTMLInputElement | HTMLSelectElement>(
    `[aria-label="${name}"], [name="${name}"]`,
  )!;
const button = (el: GridsPage, words: string) =>
  [...el.shadowRoot!.querySelectorAll('button')].find((one) => one.textContent?.includes(words))!;
async function retype(input: HTMLElement, text: string) {
  input.focus();
  (input as HTMLInputElement).select();
  await sendKeys({ type: text });
  await sendKeys({ press: 'Tab' });
}
function choose(select: HTMLElement, value: string) {
  (select as HTMLSelectElement).value = value;
  select.dispatchEvent(new Event('change', { bubbles: true }));
}

describe('rounds and their stations', () => {
  it('are accessible', async () => {
    const { el, host } = await page();
    await expectAccessible(el);
    host.remove();
  });

  it('are changed by distance, by positions in mm, and for one blade, and go back to the usual ones', async () => {
    const at = await page();
    const { el, table, host } = at;
    await retype(field(table, 'Row 2, mm from the tip'), '3,5');
    await waitUntil(() => own(at).length === 1, 'the usual round became an own one');
    await table.updateComplete;
    choose(field(table, 'unit'), 'mm');
    await table.updateComplete;
    await retype(field(table, 'Row 2, positions across'), '-1 0 1');
    await waitUntil(() => own(at)[0]!.stations.length === 20);
    await table.updateComplete;
    choose(field(table, 'Row 2, blades'), 'A');
    await waitUntil(() => own(at)[0]!.stations.length === 17);
    const row = own(at)[0]!.stations.filter(({ fromTipMm }) => fromTipMm === 3.5);
    expect(row.map(({ blade }) => blade)).to.deep.equal(['A', 'A', 'A']);
    // 1 mm off the middle of a blade about 6.9 mm wide there.
    expect(row[2]!.across).to.be.closeTo(1 / 3.45, 0.01);
    await retype(field(table, 'Row 2, positions across'), '9');
    await waitUntil(() =>
      table.shadowRoot!.querySelector('.problem')!.textContent!.includes('lie on the blade'),
    );
    expect(own(at)[0]!.stations.length).to.equal(17);
    choose(field(el, 'order'), 'columns');
    await waitUntil(() => own(at)[0]!.order === 'columns');
    button(el, 'Back to the usual').click();
    await waitUntil(() => own(at).length === 0);
    host.remove();
  });

  it('get stations by a click on the blade and by the arrows', async () => {
    const at = await page();
    const { el, picker, host } = at;
    button(el, 'New round').click();
    await waitUntil(() => own(at).length === 1);
    const [bladeA] = picker.shadowRoot!.querySelectorAll<HTMLElement>('.outline');
    bladeA!.focus();
    // From 1 mm, middle, down to 2 mm and one step to the right.
    for (const key of ['ArrowDown', 'ArrowDown', 'ArrowRight', 'Enter']) await sendKeys({ press: key });
    const has = (fromTipMm: number, across: number) =>
      own(at)[0]!.stations.some(
        (station) =>
          station.blade === 'A' &&
          station.fromTipMm === fromTipMm &&
          Math.abs(station.across - across) < 1e-9,
      );
    await waitUntil(() => has(2, 0.1));
    expect(picker.shadowRoot!.querySelector('[role=status]')!.textContent).to.contain(
      'a station. Enter takes it away',
    );
    await picker.updateComplete;
    // A click on the middle of the picture's blade, 10 mm from the tip: the ruler's ticks say where that is.
    const svg = bladeA!.querySelector('svg')!;
    const name = svg.querySelector('.name')!.getBoundingClientRect();
    const ten = [...svg.querySelectorAll('text.word')]
      .find((word) => word.textContent === '10')!
      .getBoundingClientRect();
    bladeA!.dispatchEvent(
      new MouseEvent('click', {
        bubbles: true,
        clientX: (name.left + name.right) / 2,
        clientY: (ten.top + ten.bottom) / 2,
      }),
    );
    await waitUntil(() => has(10, 0));
    host.remove();
  });

  it('fit 390 pixels and 200 % zoom without scrolling the page sideways', async () => {
    const { host } = await page();
    for (const width of [390, 195]) {
      await setViewport({ width, height: 844 });
      expect(document.documentElement.scrollWidth, `${width} wide`).to.be.at.most(width);
    }
    await setViewport({ width: 1280, height: 800 });
    host.remove();
  });
});
