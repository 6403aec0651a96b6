import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/bench/read.ts';
import '../../components/round/reed-round.ts';
import type { Reading } from '../../shared/reading.ts';
import { generatedReed } from '../generator/generated-reed.ts';
import { withFault, type Planted } from '../generator/planted-faults.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

const SWAPPED = 'A and B were written for each other';
/** A fit and a search through two full passes, on a busy machine and without a worker. */

/** A generated reed of two passes with a fault in the last, which is not kept yet. */
async function reedWith(planted: Planted) {
  const { store, host } = await emptyLibrary();
  const reedId = store.ledger.newId();
  const passes = withFault(generatedReed(100), planted).map(({ index, overallLengthMm, readings }) => ({
    kind: 'pass' as const,
    reedId,
    index,
    overallLengthMm,
    remedies: [],
    readings: readings.map(({ blade, fromTipMm, across, thicknessMm }): Reading => ({
      blade,
      fromTipMm,
      across,
      thicknessMm,
      repeat: 0,
      flag: 'ok',
      role: 'station',
    })),
  }));
  const reed = { kind: 'reed' as const, id: reedId, label: 'Q-1', styleId: 'long-scrape', tags: [] };
  await store.keep([{ ...reed, state: 'scraping' as const }, passes[0]!], 'an invented reed');
  return { store, host, reedId, last: passes[1]! };
}
const noticeIn = (el: HTMLElement) => el.shadowRoot?.querySelector('bench-fault-notice');
const wordsIn = (el: HTMLElement) => noticeIn(el)?.shadowRoot?.textContent?.replace(/\s+/g, ' ') ?? '';
const press = (el: HTMLElement, name: string) =>
  [...noticeIn(el)!.shadowRoot!.querySelectorAll('button')]
    .find(({ ariaLabel }) => ariaLabel?.startsWith(name))!
    .focus();

describe('a round whose readings show a fault', () => {
  it('says at its end that A and B were written for each other, and puts it right by one act of the maker', async () => {
    const { store, host, reedId, last } = await reedWith('swapped');
    const stations = last.readings.map(({ blade, fromTipMm, across, role }) => ({
      blade,
      fromTipMm,
      across,
      role,
    }));
    const round = { kind: 'round' as const, reedId, passIndex: 1, plan: 'Full map', stations };
    const { overallLengthMm } = last;
    await store.keep([{ ...round, about: { overallLengthMm }, startedAt: store.ledger.now() }], 'a round');
    const { id: roundId } = store.openRoundOf(reedId)!;
    for (const [i, station] of stations.slice(0, -1).entries()) {
      const { thicknessMm } = last.readings[i]!;
      await store.ledger.appendAct({
        act: 'taken',
        roundId,
        station,
        thicknessMm: thicknessMm!,
        flag: 'ok',
        seconds: i,
      });
    }
    const el = document.createElement('bench-reed-round');
    el.reedId = reedId;
    host.append(el);
    const screen = () => el.shadowRoot?.querySelector('bench-round')?.shadowRoot;
    await until(() => screen()?.activeElement);
    expect(wordsIn(el), 'nothing before the end').to.equal('');
    await sendKeys({ type: String(Math.round(100 * last.readings.at(-1)!.thicknessMm!)) });
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => wordsIn(el).includes(SWAPPED), 'the fault is named');
    await expectAccessible(el);
    press(el, 'Use this: A counts as B, and B as A');
    await sendKeys({ press: 'Enter' });
    await until(() => wordsIn(el).includes('Put right in this pass: A counts as B, and B as A'));
    expect(store.passesOf(reedId).length, 'nothing is kept by it').to.equal(1);
    screen()!.querySelector<HTMLElement>('.main-button')!.click();
    await until(() => store.passesOf(reedId).length === 2);
    const [, kept] = await store.loadPasses(reedId);
    expect(kept!.remedies).to.deep.equal([{ kind: 'swapped' }]);
    expect(kept!.readings[0]!.thicknessMm, 'as it was read').to.equal(last.readings[0]!.thicknessMm);
    host.remove();
  });
});

describe('a sheet whose readings show a fault', () => {
  it('says when the hand rests that A and B were written for each other, and puts it right by one act', async () => {
    const { store, host, reedId, last } = await reedWith('swapped');
    await store.keep([last], 'a pass');
    const el = document.createElement('bench-read');
    el.reed = store.reed(reedId)!;
    el.pass = store.passesOf(reedId)[1]!;
    host.append(el);
    await waitUntil(() => wordsIn(el).includes(SWAPPED), 'the fault is named');
    press(el, 'Use this: A counts as B, and B as A');
    await sendKeys({ press: 'Enter' });
    await until(() => store.passesOf(reedId)[1]!.remedies.length === 1);
    expect(store.passesOf(reedId)[1]!.remedies).to.deep.equal([{ kind: 'swapped' }]);
    await until(() => wordsIn(el).includes('Put right in this pass: A counts as B, and B as A'));
    host.remove();
  });
});
