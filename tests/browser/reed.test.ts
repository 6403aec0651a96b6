import { expect } from 'chai';
import { fixture, html, oneEvent, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/reed/elements.ts';
import type { BenchReed } from '../../components/reed/reed.ts';
import type { ReedBeside } from '../../components/reed/reed-beside.ts';
import type { ReedFitEvent, ReedProblemEvent } from '../../components/reed/reed-events.ts';
import type { ReedPart } from '../../components/reed/reed-part.ts';
import { heldFits } from '../../components/reed/shared-fits.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { expectAccessible } from './accessible.ts';
import { deepText } from './deep-text.ts';
import { emulateFeatures } from './emulate.ts';

const file = (name: string) => `/tests/samples/scenario/${name}.csv`;
// oxlint-disable-next-line house/no-fetch -- a sample of this repository
const textOf = async (name: string) => (await fetch(file(name))).text();
const says = (el: Element, words: string | RegExp) =>
  waitUntil(
    () => (typeof words === 'string' ? deepText(el).includes(words) : words.test(deepText(el))),
    String(words),
  );
const maps = (el: Element) => {
  const map = el.shadowRoot!.querySelector('bench-reed-map') ?? el;
  const pair = map.shadowRoot!.querySelector('bench-blade-pair');
  return [...(pair?.shadowRoot!.querySelectorAll('bench-blade-map') ?? [])];
};

const PARTS = ['map', 'zones', 'balance', 'taken', 'profile', 'opening', 'lamp', 'relief'] as const;

describe('the elements that others use', () => {
  let k117: FittedReed;
  let m142: FittedReed;

  before(async () => {
    const fitted = async (name: string) => {
      const el = document.createElement('bench-reed-zones');
      el.src = file(name);
      document.body.append(el);
      const { reed } = (await oneEvent(el, 'bench-reed-fit')) as ReedFitEvent;
      el.remove();
      return reed;
    };
    k117 = await fitted('k-117');
    m142 = await fitted('m-142');
  });

  it('are accessible, each alone and all in one, by day, in the dark and with more contrast', async () => {
    const el = await fixture<BenchReed>(
      html`<bench-reed
        .fitted=${m142}
        .compareData=${await textOf('k-117')}
        show="maps zones balance taken profile opening lamp relief"
      ></bench-reed>`,
    );
    await says(el, 'M-142 beside K-117');
    await waitUntil(() => maps(el).length === 2, 'two maps');
    await expectAccessible(el);
    await emulateFeatures({ 'prefers-color-scheme': 'dark', 'prefers-contrast': 'more' });
    await expectAccessible(el);
    await emulateFeatures({});
    el.remove();
    const page = await fixture(html`<main></main>`);
    const alone = PARTS.map((part) => document.createElement(`bench-reed-${part}`) as ReedPart);
    for (const one of alone) one.fitted = k117;
    page.append(...alone);
    for (const one of alone) await waitUntil(() => deepText(one).trim() !== '', one.localName);
    await expectAccessible(page);
  });

  it('reads the file that `src` names, and shows both blades, their zones and whether they are even', async () => {
    const el = await fixture<BenchReed>(
      html`<bench-reed src=${file('k-117')} show="maps zones balance"></bench-reed>`,
    );
    const { reed } = (await oneEvent(el, 'bench-reed-fit')) as ReedFitEvent;
    expect(reed.reed.label).to.equal('K-117');
    await waitUntil(
      () =>
        maps(el).length === 2 &&
        maps(el).every((map) => map.shadowRoot!.querySelectorAll('.bands path').length > 3),
      'bands',
    );
    expect(maps(el)).to.have.length(2);
    await says(el, 'Heart');
  });

  it('takes readings as a file, as text, as a plain object, and as its own text', async () => {
    const text = await textOf('k-117');
    const label = async (el: ReedPart) =>
      ((await oneEvent(el, 'bench-reed-fit')) as ReedFitEvent).reed.reed.label;
    for (const data of [
      new File([text], 'k-117.csv'),
      text,
      new TextEncoder().encode(text),
      { label: 'K-117', passes: [{ index: 0, readings: k117.passes[0]!.readings }] },
    ]) {
      const el = await fixture<ReedPart>(html`<bench-reed-zones></bench-reed-zones>`);
      el.data = data;
      expect(await label(el)).to.equal('K-117');
    }
    const el = await fixture<ReedPart>(html`<bench-reed-zones>${text}</bench-reed-zones>`);
    expect(await label(el)).to.equal('K-117');
  });

  it('asks what the readings leave open, and goes on with the answer', async () => {
    const rows = k117.passes[0]!.readings.map(
      ({ blade, fromTipMm, across, thicknessMm }) =>
        `${blade},${fromTipMm},${across},${(thicknessMm ?? 0) * 40}`,
    );
    const el = await fixture<ReedPart>(html`<bench-reed-zones></bench-reed-zones>`);
    el.data = ['blade,from_tip_mm,across,thickness', ...rows.map((row) => row)].join('\n');
    await says(el, /Are the thicknesses in .*\?/);
    await expectAccessible(el);
    const buttons = [...el.shadowRoot!.querySelectorAll('button')];
    buttons.find(({ textContent }) => textContent.includes('of an inch'))!.click();
    const { reed } = (await oneEvent(el, 'bench-reed-fit')) as ReedFitEvent;
    const [first] = reed.passes[0]!.readings;
    expect(first!.thicknessMm).to.be.closeTo(
      (k117.passes[0]!.readings[0]!.thicknessMm! * 40 * 25.4) / 1000,
      1e-9,
    );
  });

  it('says in the element what is wrong or missing', async () => {
    const wrong: readonly [attributes: Readonly<Record<string, string>>, words: string][] = [
      [{}, 'No readings yet'],
      [{ src: file('no-such') }, 'There is no such file (404)'],
      [{ src: 'http://127.0.0.1:9/readings.csv' }, 'could not be reached'],
      [{ src: '/package.json' }, 'No column is headed'],
      [{ src: file('k-117'), reed: 'Z-9' }, 'There is no reed Z-9 in these readings; there is K-117.'],
      [{ src: file('k-117'), pass: '9' }, 'There is no pass 9 of K-117; there is'],
      [{ src: file('k-117'), pass: 'last' }, 'pass must be the number of a pass'],
      [{ src: file('k-117'), unit: 'inch' }, 'unit must be hundredths or mm or thou, not “inch”.'],
      [{ src: file('k-117'), decimal: ';' }, 'decimal must be point or comma'],
      [{ src: file('k-117'), 'reed-style': 'none' }, 'reed-style must be long-scrape or short-scrape'],
      [{ src: file('k-117'), show: 'maps sums' }, 'show may hold maps'],
      [{ src: file('m-142-controls') }, 'has no reading of a station'],
    ];
    for (const [attributes, words] of wrong) {
      const el = document.createElement('bench-reed');
      for (const [name, value] of Object.entries(attributes)) el.setAttribute(name, value);
      (await fixture(html`<main></main>`)).append(el);
      await says(el, words);
      el.remove();
    }
  });

  it('stops where the reader says so, and goes on where they say so', async () => {
    const el = await fixture<ReedPart>(html`<bench-reed-zones src=${file('m-142')}></bench-reed-zones>`);
    const press = async (words: string) => {
      const button = () =>
        [...el.shadowRoot!.querySelectorAll('button')].find(({ textContent }) => textContent.includes(words));
      await waitUntil(button, words);
      button()!.click();
    };
    await press('Stop');
    await says(el, 'Stopped.');
    expect(heldFits()).to.equal(0);
    await press('Read again');
    await oneEvent(el, 'bench-reed-fit');
    await says(el, 'Heart');
  });

  it('tells the page of what it did not understand', async () => {
    const el = await fixture<ReedPart>(html`<bench-reed-zones></bench-reed-zones>`);
    el.data = 'reed,blade,from_tip_mm,across,thickness_mm\nZ-1,C,1,0,0.2\n';
    const { problems } = (await oneEvent(el, 'bench-reed-problem')) as ReedProblemEvent;
    expect(problems[0]).to.contain('line 2, column blade');
  });

  it('has its attributes as properties and the other way round', async () => {
    const el = await fixture<BenchReed>(html`<bench-reed></bench-reed>`);
    expect(el.getAttributeNames()).to.deep.equal([]);
    Object.assign(el, { fitted: k117, pass: 0, unit: 'mm', decimal: 'comma', show: 'zones', reed: 'K-117' });
    await el.updateComplete;
    expect(el.outerHTML)
      .to.match(/pass="0"/)
      .and.to.match(/unit="mm"/)
      .and.to.match(/decimal="comma"/);
    await says(el, /0,\d{3}/);
    el.setAttribute('unit', 'thou');
    expect(el.unit).to.equal('thou');
    await says(el, /\d,\d/);
  });

  it('shows another pass when the reader chooses it', async () => {
    const el = await fixture<BenchReed>(html`<bench-reed .fitted=${m142} show="taken"></bench-reed>`);
    await says(el, 'Taken off between pass 2 and pass 3');
    const select = el.shadowRoot!.querySelector('select')!;
    select.value = '1';
    select.dispatchEvent(new Event('change'));
    await says(el, 'Taken off between pass 0 and pass 1');
    expect(el.getAttribute('pass')).to.equal('1');
  });

  it('sets a reed beside another one, with what can be scraped and what cannot be put back', async () => {
    const el = await fixture<ReedBeside>(
      html`<bench-reed-beside .fitted=${m142} compare=${file('k-117')}></bench-reed-beside>`,
    );
    await says(el, /Thicker than K-117|No zone/);
    expect(maps(el)).to.have.length(2);
    const missing = await fixture<ReedBeside>(
      html`<bench-reed-beside .fitted=${m142} compare=${file('no-such')}></bench-reed-beside>`,
    );
    await says(missing, 'There is no such file (404)');
  });

  it('names what the readings show to be wrong', async () => {
    const el = await fixture<BenchReed>(html`<bench-reed src=${file('m-142-swapped')} show=""></bench-reed>`);
    await says(el, /Pass 3: .*A and B/);
  });

  it('works inside another shadow, in a page that is written from right to left, and takes its look there', async () => {
    const host = await fixture<HTMLElement>(html`<div dir="rtl"></div>`);
    const shadow = host.attachShadow({ mode: 'open' });
    const el = document.createElement('bench-reed-zones');
    el.dataset['theme'] = 'lamp';
    el.fitted = k117;
    shadow.append(el);
    await says(el, 'Heart');
    const style = getComputedStyle(el);
    expect(style.direction).to.equal('ltr');
    expect(style.getPropertyValue('--bench-theme').trim()).to.equal('lamp');
    expect(el.scrollWidth).to.be.at.most(el.clientWidth);
    await expectAccessible(el);
  });

  it('each say what is missing or wrong, reflect their attributes and keep their width, in a form and another shadow of a page from right to left', async () => {
    const form = await fixture<HTMLFormElement>(html`<form dir="rtl"><div></div></form>`);
    let submitted = 0;
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      submitted++;
    });
    const shadow = form.querySelector('div')!.attachShadow({ mode: 'open' });
    for (const part of [...PARTS, 'beside'] as const) {
      const el = document.createElement(`bench-reed-${part}`) as ReedPart;
      shadow.append(el);
      await says(el, 'No readings yet');
      el.setAttribute('unit', 'inch');
      await says(el, 'unit must be');
      Object.assign(el, {
        unit: 'mm',
        decimal: 'comma',
        fitted: m142,
        ...(part === 'beside' && { compareFitted: k117 }),
      });
      await el.updateComplete;
      expect(el.getAttributeNames().sort(), part).to.include.members(['decimal', 'unit']);
      expect(el.hasAttribute('src'), part).to.equal(false);
      expect(getComputedStyle(el).direction, part).to.equal('ltr');
      expect(el.scrollWidth, part).to.be.at.most(el.clientWidth);
      el.shadowRoot!.querySelector('button')?.click();
      el.pass = 9;
      await says(el, /There is no pass 9 of M-142/);
      el.remove();
    }
    expect(submitted).to.equal(0);
  });

  it('leaves the page its own colours', async () => {
    await emulateFeatures({ 'prefers-color-scheme': 'dark' });
    const el = await fixture<ReedPart>(html`<bench-reed-zones .fitted=${k117}></bench-reed-zones>`);
    expect(getComputedStyle(document.documentElement).colorScheme).to.equal('normal');
    expect(getComputedStyle(el).colorScheme).to.equal('dark');
    await emulateFeatures({});
  });

  it('shares one fit among the elements of one reed, keeps it when it is moved, and holds none when it is gone', async () => {
    const page = await fixture<HTMLElement>(html`<main></main>`);
    const text = await textOf('k-117');
    const two = ['map', 'balance'].map((part) => document.createElement(`bench-reed-${part}`) as ReedPart);
    for (const el of two) el.data = text;
    page.append(...two);
    await Promise.all(two.map((el) => oneEvent(el, 'bench-reed-fit')));
    expect(heldFits()).to.equal(1);
    const [first] = two;
    const other = document.createElement('section');
    page.append(other);
    let again = 0;
    first!.addEventListener('bench-reed-problem', () => again++);
    other.append(first!);
    await first!.updateComplete;
    expect(maps(first!)).to.have.length(2);
    for (const el of two) el.remove();
    await Promise.resolve();
    expect(heldFits()).to.equal(0);
    expect(again).to.equal(0);
  });

  it('takes typed readings in a form: a value that a reed can be drawn from, `change`, reset and what is required', async () => {
    const form = await fixture<HTMLFormElement>(
      html`<form>
        <bench-reed-readings
          name="readings"
          reed="Z-1"
          from-tip="1 2 3"
          across="-0.5 0 0.5"
          required
        ></bench-reed-readings>
      </form>`,
    );
    const el = form.querySelector('bench-reed-readings')!;
    await el.updateComplete;
    expect(form.checkValidity()).to.equal(false);
    let changes = 0;
    form.addEventListener('change', () => changes++);
    el.focus();
    await sendKeys({ type: '12' });
    await sendKeys({ press: 'Enter' });
    await sendKeys({ type: '13' });
    await sendKeys({ press: 'Enter' });
    await el.updateComplete;
    expect(changes).to.equal(2);
    expect(new FormData(form).get('readings')).to.equal(el.value);
    expect(el.value)
      .to.match(/Z-1,0,.*A,1,-0.5,0.12/)
      .and.to.match(/A,1,0,0.13/);
    expect(form.checkValidity()).to.equal(true);
    await expectAccessible(el);
    form.reset();
    await el.updateComplete;
    expect(el.value).to.equal('');
    el.value = await textOf('k-117');
    await waitUntil(() => el.value.includes('K-117') || el.value.includes('Z-1'), 'a value');
    expect(el.value.trim().split('\n')).to.have.length(141);
    el.value = 'nothing of the kind';
    await says(el, /heading|column|line/i);
  });
});
