import { expect } from 'chai';
import { aTimeout, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/gauge/gauge-page.ts';
import type { GaugePage } from '../../components/gauge/gauge-page.ts';
import { expectAccessible } from './accessible.ts';
import { FakePort, fakeSerial } from './fake-port.ts';
import { deepText } from './deep-text.ts';
import { emptyLibrary } from './library.ts';

async function page() {
  const { store, host } = await emptyLibrary();
  const el = document.createElement('bench-gauge-page');
  host.append(el);
  await waitUntil(() => el.shadowRoot?.querySelector('h1'));
  return { store, host, el };
}
const text = (el: GaugePage) => (el.shadowRoot!.textContent ?? '').replace(/\s+/g, ' ');
const plain = (el: Element) => deepText(el).replace(/\s+/g, ' ');
const type = async (input: HTMLElement, ...keys: string[]) => {
  input.focus();
  for (const key of keys) await sendKeys(key.length > 1 && key !== 'Enter' ? { type: key } : { press: key });
};

describe('bench-gauge-page', () => {
  it('is accessible, empty and with a checked gauge', async () => {
    const { store, host, el } = await page();
    expect(text(el)).to.contain('Not checked yet. Readings are taken as typed.');
    await expectAccessible(el);
    await type(el.shadowRoot!.querySelector<HTMLElement>('[name=zero]')!, '1', 'Enter');
    await waitUntil(() => store.snapshot.live.gauge.length === 1);
    await el.updateComplete;
    expect(store.snapshot.live.gauge[0]!.checks[0]!.zeroMm).to.equal(0.01);
    expect(text(el)).to.match(
      /A change under 1\.\d hundredths is not measurable with this gauge; on the blend, under 4\.\d hundredths/,
    );
    await expectAccessible(el);
    host.remove();
  });

  it('takes what the maker knows of the gauge, and says which field it cannot take', async () => {
    const { store, host, el } = await page();
    const facts = el.shadowRoot!.querySelector('bench-gauge-facts')!;
    facts.shadowRoot!.querySelector('details')!.open = true;
    const field = (name: string) => facts.shadowRoot!.querySelector<HTMLInputElement>(`[name=${name}]`)!;
    await expectAccessible(facts);
    field('placementSdMm').value = '0,2';
    field('seatingSdMm').value = '0.004';
    await type(field('tongueMm'), '9 ', 'Enter');
    await facts.updateComplete;
    expect(facts.shadowRoot!.querySelector('[role=alert]')!.textContent).to.match(
      /^Thickness of the tongue .*: 9 cannot be; it must be a number from 0 to 3, or blank\.$/,
    );
    expect(store.snapshot.live.gauge).to.have.length(0);
    field('tongueMm').value = '0.51';
    await type(field('tongueMm'), 'Enter');
    await waitUntil(() => store.snapshot.live.gauge.length === 1);
    expect(store.snapshot.live.gauge[0]).to.include({
      name: 'My gauge',
      tongueMm: 0.51,
      seatingSdMm: 0.004,
      placementSdMm: 0.2,
    });
    await waitUntil(() => text(el).includes('from what you declared'));
    expect(text(el)).to.contain('places found to 0.20 mm');
    field('tongueMm').value = '';
    await type(field('tongueMm'), 'Enter');
    await waitUntil(() => store.snapshot.live.gauge[0]!.tongueMm === undefined);
    host.remove();
  });

  it('fits the line through known thicknesses and keeps the check', async () => {
    const { store, host, el } = await page();
    const known = el.shadowRoot!.querySelector('bench-known-check')!;
    known.closest('details')!.open = true;
    const inside = <E extends HTMLElement>(selector: string) => known.shadowRoot!.querySelector<E>(selector)!;
    for (const [nominal, shown] of [
      ['10', '10 10 11'],
      ['50', '51 51'],
    ] as const) {
      await type(inside('[name=nominal]'), nominal);
      await type(inside('[name=shown]'), shown, 'Enter');
    }
    await known.updateComplete;
    // From 0.10 to 0.50 mm the gauge shows (0.51 - 0.10333) / 0.40 = 1.0167 of the truth.
    await waitUntil(() => plain(known).includes('The span is off by 1.7'));
    await expectAccessible(known);
    [...known.shadowRoot!.querySelectorAll('button')].at(-1)!.click();
    await waitUntil(() => store.snapshot.live.gauge[0]?.checks[0]?.known.length === 2);
    await waitUntil(() => plain(el).includes('The span is off by 1.7'), 'the line stays with its check');
    const line = el.shadowRoot!.querySelector('bench-known-line')!.shadowRoot!;
    await waitUntil(
      () => line.querySelectorAll('[data-stop]').length === 2,
      'every known thickness is a mark',
    );
    line.querySelector<SVGElement>('[data-stop][tabindex="0"]')!.focus();
    await sendKeys({ press: 'Home' });
    // The line runs through both means. By hand: 1.96 sqrt(0.25^2 + (1 / sqrt 12)^2 + (0.5 / sqrt 3)^2) = 0.94.
    await waitUntil(
      () =>
        line.activeElement?.getAttribute('aria-label') === 'known 10.0, shown 10.33, left over 0.00 ±0.94',
    );
    const low = line.querySelector<SVGPathElement>('[data-stop="known-0"] .whisker')!.getBBox();
    const middle = line.querySelector<SVGCircleElement>('[data-stop="known-0"] .ring')!.cy.baseVal.value;
    expect(middle - low.y).to.be.closeTo(low.y + low.height - middle, 0.1);
    for (const zero of ['1', '-1']) {
      await type(el.shadowRoot!.querySelector<HTMLElement>('[name=zero]')!, ...zero, 'Enter');
      await waitUntil(() => store.snapshot.live.gauge[0]!.checks.at(-1)!.zeroMm === Number(zero) / 100);
    }
    const checks = el.shadowRoot!.querySelector('bench-check-chart')!.shadowRoot!;
    const zeros = () =>
      [...checks.querySelectorAll('[data-stop^="zero"]')].map((one) => one.getAttribute('aria-label'));
    const offTrue = checks.querySelector('[data-stop="known 0"]')!.getAttribute('aria-label');
    expect(offTrue).to.match(/known 10\.0, shown less true \+0\.3 ±0\.9$/);
    await waitUntil(() => /zero \+1\.0/.test(zeros()[0] ?? '') && /zero \u22121\.0/.test(zeros()[1] ?? ''));
    await expectAccessible(el);
    host.remove();
  });

  it('guides a repeat study, and judges the gauge by it', async () => {
    const { store, host, el } = await page();
    const study = el.shadowRoot!.querySelector('bench-repeat-study')!;
    study.shadowRoot!.querySelector('button')!.click();
    await study.updateComplete;
    const input = study.shadowRoot!.querySelector('input')!;
    for (let i = 0; i < 20; i++) await type(input, String(45 + (i % 2)), 'Enter');
    await waitUntil(() => store.snapshot.live.gauge[0]?.repeatStudies.length === 1);
    expect(
      store.snapshot.live.gauge[0]!.repeatStudies[0]!.stations.map((station) => station.length),
    ).to.deep.equal([5, 5, 5, 5]);
    await waitUntil(() => text(el).includes('from your repeat studies, 16 repeats'));
    const points = el.shadowRoot!.querySelector('bench-study-points')!.shadowRoot!;
    await waitUntil(() => points.querySelectorAll('[data-stop]').length === 20, 'every reading is a mark');
    const causes = el.shadowRoot!.querySelector('bench-causes-chart')!.shadowRoot!;
    causes.querySelector<SVGElement>('[data-stop][tabindex="0"]')!.focus();
    await sendKeys({ press: 'Home' });
    await waitUntil(() => /placement ±0\.\d\d/.test(causes.querySelector('.card')?.textContent ?? ''));
    await expectAccessible(el);
    host.remove();
  });

  it('is taught from a sample line and hears a port', async () => {
    const { store, host, el } = await page();
    const cable = el.shadowRoot!.querySelector('bench-gauge-connection')!;
    cable.closest('details')!.open = true;
    const port = new FakePort();
    cable.serial = fakeSerial(port);
    await cable.updateComplete;
    await type(cable.shadowRoot!.querySelector<HTMLElement>('[name=sample]')!, '01A+000.552');
    await cable.updateComplete;
    cable.shadowRoot!.querySelector<HTMLElement>('[role=group] button')!.click();
    await waitUntil(() => store.snapshot.live.gauge[0]?.connection !== undefined);
    await waitUntil(() => cable.connection !== undefined);
    await cable.updateComplete;
    const plug = [...cable.shadowRoot!.querySelectorAll('button')].find(
      (button) => button.textContent === 'Plug in',
    )!;
    plug.click();
    await waitUntil(() => port.isOpen);
    await port.feed('01A+000.460\r');
    await waitUntil(() => cable.shadowRoot!.querySelector('pre')?.textContent === '01A+000.460');
    await expectAccessible(cable);
    host.remove();
  });

  it('is listened to first: a port that drops, repeats and garbles shows its lines, and what changes is the reading', async () => {
    const { store, host, el } = await page();
    const cable = el.shadowRoot!.querySelector('bench-gauge-connection')!;
    cable.closest('details')!.open = true;
    const inside = cable.shadowRoot!;
    const port = new FakePort();
    cable.serial = fakeSerial(port);
    await cable.updateComplete;
    inside.querySelector<HTMLSelectElement>('[name=frame]')!.value = '1';
    const listen = [...inside.querySelectorAll('button')].find(
      (one) => one.textContent === 'Listen to a gauge',
    )!;
    listen.click();
    await waitUntil(() => port.isOpen);
    expect(port.settings).to.include({ baudRate: 9600, dataBits: 7, parity: 'even', stopBits: 1 });
    expect(port.signals).to.deep.equal({ dataTerminalReady: true, requestToSend: true });
    expect(inside.textContent).to.contain('Nothing has come yet');
    // A channel number, a value that moves, a judgement that changes; half a line, one line twice, garbage between.
    await port.feed('2,+0.45', '0,mm OK\r\n', '2,+0.4', '\r\n', '2,+0.461,mm OK\r\n2,+0.461,mm OK\r\n');
    await port.feed('\u0007#!\r\n', '2,+0.470,mm -NG\r\n');
    await cable.updateComplete;
    expect(inside.textContent).to.contain('Which of these does the gauge show now?');
    const [first] = inside.querySelectorAll<HTMLElement>('[role=group] button');
    expect(first!.textContent!.trim()).to.equal('0.470\u00a0mm');
    await expectAccessible(cable);
    first!.click();
    await waitUntil(() => store.snapshot.live.gauge[0]?.connection !== undefined);
    await waitUntil(() => store.gauge?.state.is === 'open', 'heard again, with what was chosen');
    const heard: number[] = [];
    store.gauge!.listen((news) => {
      if (news.kind === 'reading') heard.push(news.thicknessMm);
    });
    await port.feed('2,+0.512,mm OK\r\n', '2,+0.5', '\r\ngarbage\r\n', '2,+0.498,mm -NG\r\n');
    await waitUntil(() => heard.length === 2);
    expect(heard).to.deep.equal([0.512, 0.498]);
    store.useGauge(undefined);
    host.remove();
  });

  it('asks a gauge that does not send by itself', async () => {
    const { store, host, el } = await page();
    const cable = el.shadowRoot!.querySelector('bench-gauge-connection')!;
    cable.closest('details')!.open = true;
    const inside = cable.shadowRoot!;
    const port = new FakePort();
    let n = 0;
    port.answer = () => `0.4${(n++ % 5) + 1}0\r`;
    cable.serial = fakeSerial(port);
    await cable.updateComplete;
    inside.querySelector<HTMLInputElement>('[name=ask]')!.value = '?';
    [...inside.querySelectorAll('button')].find((one) => one.textContent === 'Listen to a gauge')!.click();
    await waitUntil(() => inside.querySelector('[role=group] button') && n > 2);
    expect(port.asked.startsWith('?\r?\r')).to.equal(true);
    inside.querySelector<HTMLElement>('[role=group] button')!.click();
    await waitUntil(() => store.snapshot.live.gauge[0]?.connection?.ask === '?\r');
    expect(store.snapshot.live.gauge[0]!.connection!.sends).to.equal('all-the-time');
    const before = n;
    await waitUntil(() => n > before + 1, 'it is asked on');
    // Taught to be asked by a key: it is silent until it is asked.
    await cable.updateComplete;
    inside.querySelector<HTMLInputElement>('[name=ask]')!.value = 'R\\r\\n';
    inside.querySelector<HTMLSelectElement>('[name=asks]')!.value = 'key';
    [...inside.querySelectorAll('button')].find((one) => one.textContent === 'Listen to a gauge')!.click();
    await waitUntil(() => port.asked.endsWith('R\r\n') && inside.querySelector('[role=group] button'));
    inside.querySelector<HTMLElement>('[role=group] button')!.click();
    await waitUntil(() => store.snapshot.live.gauge[0]?.connection?.asks === 'key');
    const asking = () =>
      [...inside.querySelectorAll('button')].find((one) => one.textContent === 'Ask it now');
    await waitUntil(asking);
    const { length } = port.asked;
    await aTimeout(700);
    expect(port.asked.length, 'silent').to.equal(length);
    asking()!.click();
    await waitUntil(() => port.asked.length === length + 3);
    expect(inside.querySelector<HTMLInputElement>('[name=ask]')!.value).to.equal('R\\r\\n');
    store.useGauge(undefined);
    host.remove();
  });

  it('says what to do where the browser has no serial ports', async () => {
    const { host, el } = await page();
    const cable = el.shadowRoot!.querySelector('bench-gauge-connection')!;
    cable.closest('details')!.open = true;
    cable.serial = undefined;
    await cable.updateComplete;
    expect(cable.shadowRoot!.textContent).to.contain('This browser cannot hear a gauge on a cable.');
    host.remove();
  });
});
