import { expect } from 'chai';
import { fixture, html, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import type { Connection } from '../../shared/gauge.ts';
import { readingsOfSample } from '../../src/gauge-lines/line-format.ts';
import type { GaugeNews } from '../../components/gauge/gauge-source.ts';
import { SerialGauge } from '../../components/gauge/serial-gauge.ts';
import { SimulatedGauge } from '../../components/gauge/simulated-gauge.ts';
import '../../components/round/round-screen.ts';
import type { RoundScreen } from '../../components/round/round-screen.ts';
import { seededRandom } from '../seeded-random.ts';
import { FakePort } from './fake-port.ts';
import { FULL_MAP, inventedCount, inventedRound, memoryLog } from './invented-round.ts';

function connection(sample: string, sends: Connection['sends'] = 'on-button'): Connection {
  const { format } = readingsOfSample(sample)[0]!;
  return { baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1, sends, line: format };
}

async function plugged(sample: string, sends?: Connection['sends'], nowMs?: () => number) {
  const port = new FakePort();
  const gauge = new SerialGauge('invented', connection(sample, sends), nowMs);
  const news: GaugeNews[] = [];
  gauge.listen((one) => news.push(one));
  await gauge.open(port);
  const readings = () => news.flatMap((one) => (one.kind === 'reading' ? [one.thicknessMm] : []));
  return { port, gauge, news, readings };
}

describe('a gauge on a serial port', () => {
  for (const [name, sample, chunks] of [
    ['a signed number', '+000.552', ['+000.5', '52\r\n+000', '.460\r\n']],
    ['a decimal comma', '0,552 mm', ['0,552 mm\r', '\n0,4', '60 mm\r\n']],
    ['a channel before it', '01A+000.552', ['01A+000.552\r01A+0', '00.460\r']],
  ] as const) {
    it(`hears ${name}, however its bytes fall`, async () => {
      const { port, readings } = await plugged(sample);
      await port.feed(...chunks);
      expect(readings()).to.deep.equal([0.552, 0.46]);
    });
  }

  it('passes over garbage and half lines, and shows them as they came', async () => {
    const { port, readings, news } = await plugged('+000.552');
    await port.feed('52\r', '\u0001\u0002zz\r', 'ERR 1\r', '+000.460\r');
    expect(readings()).to.deep.equal([0.46]);
    const lines = news.flatMap((one) => (one.kind === 'line' ? [one.understood] : []));
    expect(lines).to.deep.equal([false, false, false, true]);
  });

  it('goes on after a framing error, says when it is unplugged, and is plugged in again', async () => {
    const { port, gauge, readings } = await plugged('+000.552');
    await port.feed('+000.1');
    await port.break();
    await port.feed('\r+000.460\r');
    expect(readings()).to.deep.equal([0.46]);
    await port.unplug();
    await waitUntil(() => gauge.state.is === 'lost');
    expect(gauge.state).to.deep.equal({
      is: 'lost',
      why: 'The gauge is silent. Type, or plug it in; nothing is lost.',
    });
    const other = new FakePort();
    await gauge.open(other);
    await other.feed('+000.470\r');
    expect(readings()).to.deep.equal([0.46, 0.47]);
    await gauge.close();
    expect(other.isOpen).to.equal(false);
    expect(gauge.state.is).to.equal('closed');
  });

  it('says what to do when another program holds it', async () => {
    const port = new FakePort();
    port.failure = new DOMException('busy', 'NetworkError');
    const gauge = new SerialGauge('invented', connection('0.552'));
    expect(await gauge.open(port)).to.equal(false);
    expect(gauge.state.is === 'lost' && gauge.state.why).to.contain('Another program or window may hold it');
  });

  it('holds the lowest stable value of a gauge that sends all the time, anew after each reading', async () => {
    let ms = 0;
    const { port, gauge, news } = await plugged('0.552', 'all-the-time', () => (ms += 150));
    await port.feed('0.480\r0.480\r0.480\r0.440\r0.500\r0.500\r0.500\r');
    expect(news.at(-1)).to.deep.equal({ kind: 'live', shownMm: 0.5, lowestMm: 0.48 });
    gauge.release();
    await port.feed('0.520\r');
    expect(news.at(-1)).to.deep.equal({ kind: 'live', shownMm: 0.52 });
  });
});

describe('a gauge that must be asked', () => {
  /** A gauge on a fake port that answers `0.46`, `0.47`, ... when it is asked, in a round. */
  async function asked(sends = (n: number) => `${0.46 + n / 100}\r`) {
    const port = new FakePort();
    let n = 0;
    port.answer = () => sends(n++);
    const gauge = new SerialGauge('invented', { ...connection('0.55'), ask: 'P\r\n', asks: 'key' });
    await gauge.open(port);
    const log = memoryLog();
    const el = await fixture<RoundScreen>(
      html`<bench-round .round=${inventedRound()} .keep=${log.keep} .gauge=${gauge}></bench-round>`,
    );
    return { port, gauge, el, log };
  }
  const taken = ({ acts }: ReturnType<typeof memoryLog>) =>
    acts.flatMap((act) => (act.act === 'taken' ? [act.thicknessMm] : []));

  it('is asked by Enter, by a pedal and by a presenter’s key, once a press, and not before', async () => {
    const { port, gauge, el, log } = await asked();
    expect(port.asked).to.equal('');
    el.focus();
    for (const press of ['Enter', 'Space', 'PageDown']) {
      const before = log.acts.length;
      await sendKeys({ press });
      await waitUntil(() => log.acts.length > before, press);
    }
    expect(taken(log)).to.deep.equal([0.46, 0.47, 0.48]);
    expect(port.asked).to.equal('P\r\n'.repeat(3));
    await sendKeys({ type: '52' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => log.acts.length === 4);
    expect(taken(log).at(-1), 'what is typed goes first').to.equal(0.52);
    expect(port.asked).to.equal('P\r\n'.repeat(3));
    await gauge.close();
  });

  it('is not asked twice while it has not answered, and says when it does not', async () => {
    const { port, gauge, el, log } = await asked(() => '');
    el.focus();
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => port.asked !== '');
    await sendKeys({ press: 'Enter' });
    expect(port.asked).to.equal('P\r\n');
    const alert = () => el.shadowRoot!.querySelector('[role=alert]')?.textContent ?? '';
    await waitUntil(() => alert().includes('was asked and did not answer'), 'told');
    port.answer = () => '0.46\r';
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => log.acts.length === 1);
    await waitUntil(() => !alert().includes('did not answer'));
    await gauge.close();
  });
});

it('the simulated gauge fills a pass without a hand', async () => {
  const log = memoryLog();
  const el = await fixture<RoundScreen>(
    html`<bench-round .round=${inventedRound()} .keep=${log.keep}></bench-round>`,
  );
  const gauge = new SimulatedGauge({
    thicknessMm: (place) => inventedCount(place) / 100,
    place: () => el.place,
    random: seededRandom(7),
    scatterMm: 0.004,
    stepMm: 0.01,
  });
  el.gauge = gauge;
  await el.updateComplete;
  gauge.run(1);
  await waitUntil(() => log.acts.length === FULL_MAP.length, 'all stations read');
  await waitUntil(() => gauge.state.is === 'closed');
  expect(el.shadowRoot!.querySelector('.end')).not.to.equal(null);
});
