import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { sendKeys, setViewport } from '@web/test-runner-commands';
import '../../components/bench/read.ts';
import { inventedThicknessMm } from '../../src/gauge-lines/invented-blade.ts';
import { roundPlans } from '../../src/round/round-plans.ts';
import { expectAccessible } from './accessible.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

/** A reed read whole in pass 0, and pass 1 begun with the first row of A. */
async function sheet() {
  const { store, host } = await emptyLibrary();
  const reedId = store.ledger.newId();
  const readings = roundPlans('long')
    .at(-1)!
    .stations.map((station) => ({
      ...station,
      thicknessMm: Number(inventedThicknessMm(station).toFixed(2)),
      repeat: 0,
      flag: 'ok' as const,
    }));
  const pass = { kind: 'pass' as const, reedId, overallLengthMm: 70, threadMm: 46.5, remedies: [] };
  await store.keep(
    [
      { kind: 'reed', id: reedId, label: 'T-1', styleId: 'long-scrape', state: 'scraping', tags: [] },
      { ...pass, index: 0, takenAt: '2026-02-01T20:00:00Z', readings },
      {
        ...pass,
        index: 1,
        readings: readings.filter(({ blade, fromTipMm }) => blade === 'A' && fromTipMm < 1),
      },
    ],
    'a reed',
  );
  let fits = 0;
  const { bench } = store.models;
  Object.assign(store.models, {
    bench: (...given: Parameters<typeof bench>) => {
      fits += 1;
      return bench(...given);
    },
  });
  const el = document.createElement('bench-read');
  el.reed = store.reed(reedId)!;
  el.pass = store.passesOf(reedId)[1]!;
  host.append(el);
  await waitUntil(() =>
    el.shadowRoot?.querySelector('bench-reed-readings')?.shadowRoot?.querySelector('input'),
  );
  const grid = el.shadowRoot!.querySelector('bench-reed-readings')!;
  const live = el.shadowRoot!.querySelector('bench-live-reed')!;
  await until(() => live.live && !live.refining);
  const cell = (name: string) =>
    grid.shadowRoot!.querySelector<HTMLInputElement>(`input[data-cell="${name}"]`)!;
  const kept = () => store.wholePassesOf(reedId)![1]!.readings;
  return { store, host, el, grid, live, cell, kept, fits: () => fits };
}
const figures = (live: Element) =>
  (live.shadowRoot!.querySelector('bench-figures-table')!.shadowRoot!.textContent ?? '').replace(/\s+/g, ' ');

describe('typing into a pass', () => {
  it('shows paler, with its day, what was read before, but not in the row on which the keys stand', async () => {
    const { host, el, grid, cell } = await sheet();
    const name = () => cell('A 3 2').getAttribute('aria-label');
    expect(cell('A 3 2').placeholder).to.equal('29');
    expect(name()).to.equal(`A, 3\u00a0mm, middle, not read; 29 in pass 0, ${dayWords('2026-02-01')}`);
    expect(grid.shadowRoot!.querySelector('.paler')!.textContent).to.equal(
      `Paler, not read in this pass: pass 0, ${dayWords('2026-02-01')}.`,
    );
    await expectAccessible(el);
    cell('A 3 0').focus();
    await grid.updateComplete;
    expect(cell('A 3 2').placeholder, 'nothing leads the eye').to.equal('');
    expect(name()).to.equal('A, 3\u00a0mm, middle');
    expect(cell('A 4 2').placeholder).to.match(/^\d+$/);
    [...el.shadowRoot!.querySelectorAll('button')]
      .find(({ textContent }) => textContent?.includes('read before'))!
      .click();
    await waitUntil(() => cell('A 4 2').placeholder === '', 'hidden when it is asked for');
    host.remove();
  });

  it('moves figures and picture with every key by one step, one render each, and fits once when the hand rests', async () => {
    const { host, el, grid, live, cell, kept, fits } = await sheet();
    const before = fits();
    const { older } = grid;
    const blades = [...live.shadowRoot!.querySelectorAll('bench-blade-map')];
    const [, other] = blades.map(({ data }) => data);
    let renders = 0;
    const render = live.render.bind(live);
    live.render = () => {
      renders += 1;
      return render();
    };
    const picture = () =>
      [...(live.shadowRoot!.querySelector('bench-blade-map')!.data!.valuesMm as Float64Array)].join();
    const type = async (typed: string) => {
      const was = live.live;
      await sendKeys({ type: typed });
      await sendKeys({ press: 'Enter' });
      await waitUntil(() => live.live !== was);
      await live.updateComplete;
    };
    // The hand does not rest while the three are typed, however slow the machine.
    el.restMs = 1e6;
    cell('A 1 0').focus();
    const seen = new Set([picture() + figures(live)]);
    for (const typed of ['10', '13', '17']) {
      await type(typed);
      await live.shadowRoot!.querySelector('bench-figures-table')!.updateComplete;
      expect(live.refining, 'the smoothing is held').to.equal(true);
      expect(live.shadowRoot!.querySelector('[role=status]')!.textContent).to.equal('refining');
      seen.add(picture() + figures(live));
      expect(fits(), 'no fit for a key').to.equal(before);
    }
    expect(seen.size, 'figures and picture moved with each').to.equal(4);
    expect(renders, 'one render each').to.equal(3);
    expect(grid.older, 'rows at rest are not drawn again').to.equal(older);
    expect(blades[1]!.data, 'nor the blade that is not read').to.equal(other);
    await waitUntil(() => kept().length === 8);
    expect(fits(), 'nor for what is kept').to.equal(before);
    el.restMs = 0;
    await type('16');
    await until(() => !live.refining);
    await waitUntil(() => kept().length === 9);
    await until(() => fits() > before && !live.refining);
    expect(live.leastSure).to.match(/^Least sure: [AB], \d+\u00a0mm, .*±[\d.]+ \(95 %\)\.$/);
    const doubts = () =>
      [...live.shadowRoot!.querySelectorAll('bench-blade-map')]
        .filter(({ quantity }) => quantity === 'doubt')
        .map(({ data }) => Math.max(...Array.from(data!.valuesMm).filter((mm) => mm > 0)));
    const rested = doubts();
    expect(rested, 'a map of what is open, of both blades').to.have.length(2);
    expect(live.open!.leastSure!.uMm * 1.96).to.be.at.most(Math.max(...rested));
    el.restMs = 1e6;
    await type('20');
    const paler = live.shadowRoot!.querySelectorAll('.older');
    expect(paler, 'the older one, paler, while it is refined').to.have.length(1);
    expect(doubts()).to.deep.equal(rested);
    host.remove();
  });

  it('marks an odd reading with its reason and the likely slip, keeps it and goes on', async () => {
    const { host, grid, cell, kept } = await sheet();
    cell('A 7 2').focus();
    await sendKeys({ type: '84' });
    await sendKeys({ press: 'Enter' });
    expect(grid.shadowRoot!.activeElement).to.equal(cell('A 7 3'));
    await waitUntil(() => cell('A 7 2').getAttribute('aria-label')!.endsWith(', odd'));
    cell('A 7 2').focus();
    await grid.updateComplete;
    expect(grid.shadowRoot!.querySelector('[role=status]')!.textContent).to.match(
      /Odd for A, 8\u00a0mm, middle: .* was expected.* It may be 48 with its digits turned/,
    );
    await waitUntil(() => kept().some(({ thicknessMm }) => thicknessMm === 0.84));
    host.remove();
  });

  it('asks under the line of an odd reading while the keys go on, and remembers what stood there', async () => {
    const { store, host, grid, cell, kept } = await sheet();
    const root = grid.shadowRoot!;
    const asked = () => root.querySelector('tr.asked');
    const button = (words: string) =>
      [...root.querySelectorAll('button')].find((one) => one.textContent!.trim() === words);
    const at = () => kept().find((one) => one.blade === 'A' && one.fromTipMm === 8 && one.across === 0);
    cell('A 7 2').focus();
    await sendKeys({ type: '47' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => at()?.thicknessMm === 0.47);
    const before = 0.47;
    cell('A 7 2').focus();
    cell('A 7 2').select();
    await sendKeys({ type: '84' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(asked, 'the question');
    expect(asked()!.previousElementSibling!.id).to.equal('row-A-7');
    expect(asked()!.textContent!.replace(/\s+/g, ' ')).to.match(
      /84 at A, 8\smm, middle. Here .* was expected. Is it 48, with its digits turned\?/,
    );
    expect(root.activeElement, 'the keys have gone on').to.equal(cell('A 7 3'));
    await expectAccessible(grid);
    button('It is 48')!.click();
    await waitUntil(() => at()?.thicknessMm === 0.48 && !asked());
    cell('A 7 2').focus();
    await waitUntil(() => root.querySelectorAll('.past li').length === 2, 'both values before');
    const [latest, first] = [...root.querySelectorAll('.past li')].map((one) =>
      one.textContent!.replace(/\s+/g, ' ').trim(),
    );
    expect(latest).to.match(/^84 until .*, \d\d:\d\d, in the sheet Back to 84$/);
    expect(first).to.contain(`${Math.round(before * 100)} until`);
    button(`Back to ${Math.round(before * 100)}`)!.click();
    await waitUntil(() => at()?.thicknessMm === before, 'back to one');
    await waitUntil(() => root.querySelectorAll('.past li').length === 3);
    // Asked anew, and said to be as read: the sign goes.
    cell('A 7 2').focus();
    cell('A 7 2').select();
    await sendKeys({ type: '84' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(asked, 'the question again');
    button('84, as read')!.click();
    await waitUntil(() => !asked() && !cell('A 7 2').getAttribute('aria-label')!.endsWith('odd'));
    const replaced = () => store.passesOf(store.reeds[0]!.id)[1]!.replaced ?? [];
    await waitUntil(() => replaced().length === 4, 'kept with the pass');
    expect(replaced().every(({ how, deviceId }) => how === 'sheet' && deviceId)).to.equal(true);
    host.remove();
  });

  it('fits 1440, 390 and 195 pixels (200 % zoom on a phone) without scrolling the page sideways', async () => {
    const { host, grid } = await sheet();
    for (const [width, height] of [
      [1440, 900],
      [390, 844],
      [195, 422],
    ] as const) {
      await setViewport({ width, height });
      expect(document.documentElement.scrollWidth, `${width} wide`).to.be.at.most(width);
      const [a, b] = grid.shadowRoot!.querySelectorAll('table');
      const isBeside = a!.getBoundingClientRect().right < b!.getBoundingClientRect().left;
      expect(isBeside, 'both blades side by side where there is room').to.equal(width === 1440);
    }
    await setViewport({ width: 1280, height: 800 });
    host.remove();
  });
});
