import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/round/reed-round.ts';
import type { ReedRound } from '../../components/round/reed-round.ts';
import { expectAccessible } from './accessible.ts';
import { readingsOfSample } from '../../src/gauge-lines/line-format.ts';
import { FakePort, fakeSerial } from './fake-port.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

async function benchWithReed() {
  const { store, host } = await emptyLibrary();
  await store.keep(
    [{ kind: 'reed', label: 'T-1', styleId: 'long', state: 'scraping', tags: [], invented: true }],
    'a reed',
  );
  const el = document.createElement('bench-reed-round');
  el.reedId = store.reeds[0]!.id;
  host.append(el);
  await el.updateComplete;
  return { store, host, el };
}

/** Begins a round of four places with one key. */
async function beginSpot(el: ReedRound) {
  await waitUntil(() => inside(el, 'bench-round-start')?.shadowRoot?.activeElement);
  const spot = [...inside(el, 'bench-round-start')!.shadowRoot!.querySelectorAll('button')].find((button) =>
    button.textContent?.includes('Spot'),
  )!;
  spot.focus();
  await sendKeys({ press: 'Enter' });
  await waitUntil(() => round(el)?.shadowRoot?.activeElement, 'the round has the keys');
}

const inside = (el: ReedRound, selector: string) => el.shadowRoot!.querySelector<HTMLElement>(selector);
const round = (el: ReedRound) => inside(el, 'bench-round');

describe('bench-reed-round', () => {
  it('offers the plans, accessibly, with the keys on the likeliest', async () => {
    const { el, host } = await benchWithReed();
    await waitUntil(() => inside(el, 'bench-round-start'));
    await expectAccessible(inside(el, 'bench-round-start')!);
    expect(inside(el, 'bench-round-start')!.shadowRoot!.activeElement?.textContent).to.contain('Full map');
    host.remove();
  });

  it('needs one key to begin; keeps each reading; waits half done; becomes a pass', async () => {
    const { store, host, el } = await benchWithReed();
    await beginSpot(el);
    for (const key of ['1', '0', 'Enter', '1', '1', 'Enter']) await sendKeys({ press: key });
    const { id } = store.openRoundOf(el.reedId!)!;
    await waitUntil(async () => (await store.ledger.actsOf(id)).length === 2);

    el.remove();
    const again = document.createElement('bench-reed-round');
    again.reedId = el.reedId!;
    host.append(again);
    await waitUntil(() => round(again)?.shadowRoot?.querySelector('.done')?.textContent === '2 of 4');
    for (const key of ['1', '2', 'Enter', '1', '3', 'Enter']) await sendKeys({ press: key });
    await waitUntil(() => round(again)?.shadowRoot?.querySelector('.main-button:enabled'));
    round(again)!.shadowRoot!.querySelector<HTMLElement>('.main-button')!.click();
    await waitUntil(() => store.passesOf(el.reedId!).length === 1);
    const [pass] = await store.loadPasses(el.reedId!);
    expect(pass!.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.1, 0.11, 0.12, 0.13]);
    expect(store.openRoundOf(el.reedId!)).to.equal(undefined);
    host.remove();
  });

  it('is filled by the data button of a gauge on a cable alone, unplugged and plugged in again', async () => {
    const { store, host, el } = await benchWithReed();
    const { format } = readingsOfSample('01A+000.552')[0]!;
    await store.keep(
      [
        {
          kind: 'gauge',
          name: 'invented',
          stepMm: 0.001,
          checks: [],
          repeatStudies: [],
          connection: {
            baudRate: 9600,
            dataBits: 8,
            parity: 'none',
            stopBits: 1,
            sends: 'on-button',
            line: format,
          },
        },
      ],
      'a gauge',
    );
    const port = new FakePort();
    const serial = fakeSerial(port);
    el.serial = serial;
    el.requestUpdate();
    await beginSpot(el);
    await waitUntil(() => port.isOpen, 'the port chosen before is opened without asking');
    const { id } = store.openRoundOf(el.reedId!)!;
    const taken = async () =>
      (await store.ledger.actsOf(id)).flatMap((act) => (act.act === 'taken' ? [act.thicknessMm] : []));
    await port.feed('01A+000.0', '72\r', 'garbage\r', '01A+000.074\r');
    await waitUntil(async () => (await taken()).length === 2);
    await port.unplug();
    await waitUntil(() => round(el)!.shadowRoot!.querySelector('.trouble')?.textContent?.includes('silent'));
    serial.plugIn();
    await waitUntil(() => port.readable?.locked && store.gauge?.state.is === 'open', 'heard again');
    await waitUntil(() => !round(el)!.shadowRoot!.querySelector('.trouble'));
    await port.feed('01A+000.081\r01A+000.083\r');
    await waitUntil(async () => (await taken()).length === 4);
    expect(await taken()).to.deep.equal([0.072, 0.074, 0.081, 0.083]);
    await waitUntil(() => round(el)!.shadowRoot!.querySelector('.end'));
    expect(store.openRoundOf(el.reedId!)!.about).to.include({
      gaugeId: store.snapshot.live.gauge[0]!.id,
      gaugeStepMm: 0.001,
    });
    store.useGauge(undefined);
    await waitUntil(() => !port.isOpen);
    host.remove();
  });

  it('is filled by the simulated gauge without a hand, for an invented reed; its pass is marked invented', async () => {
    const { store, host, el } = await benchWithReed();
    await beginSpot(el);
    const gauge = inside(el, 'bench-round-gauge')!;
    const button = (words: string) =>
      [...gauge.shadowRoot!.querySelectorAll('button')].find((one) => one.textContent?.includes(words));
    await waitUntil(() => button('Try a simulated gauge'));
    button('Try a simulated gauge')!.click();
    await waitUntil(() => button('Press its button'));
    await expectAccessible(el);
    button('Let it read')!.click();
    await until(() => round(el)?.shadowRoot?.querySelector('.main-button:enabled'));
    round(el)!.shadowRoot!.querySelector<HTMLElement>('.main-button')!.click();
    await waitUntil(() => store.passesOf(el.reedId!).length === 1);
    const [pass] = await store.loadPasses(el.reedId!);
    expect(pass!.invented).to.equal(true);
    expect(new Set(pass!.readings.map(({ method }) => method))).to.deep.equal(new Set(['simulated']));
    host.remove();
  });

  it('begins each row on the right for a left hand, and offers the round used last though another came between', async () => {
    const { store, host, el } = await benchWithReed();
    await store.choose({ handedness: 'left' });
    await beginSpot(el);
    const { stations, ...round } = store.openRoundOf(el.reedId!)!;
    expect(stations.map(({ blade, across }) => `${blade} ${across}`)).to.deep.equal([
      'A 0.8',
      'A -0.8',
      'B 0.8',
      'B -0.8',
    ]);
    el.remove();
    const before = { kind: 'round' as const, reedId: round.reedId, stations, about: {} };
    const ended = { ...before, startedAt: round.startedAt, closedAs: store.ledger.newId() };
    await store.keep([{ ...round, stations, closedAs: ended.closedAs }], 'the round closed');
    await store.keep([{ ...ended, passIndex: 1, plan: 'Quick' }], 'a quick round');
    await store.keep([{ ...ended, passIndex: 2, plan: 'To know the heart' }], 'a round of few places');
    const again = document.createElement('bench-reed-round');
    again.reedId = round.reedId;
    host.append(again);
    await until(() =>
      inside(again, 'bench-round-start')?.shadowRoot?.activeElement?.textContent?.includes('Quick'),
    );
    host.remove();
  });
});
