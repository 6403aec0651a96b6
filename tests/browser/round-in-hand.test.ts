import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import { sendKeys, setViewport } from '@web/test-runner-commands';
import type { Act } from '../../shared/round.ts';
import type { GaugeListener, GaugeSource } from '../../components/gauge/gauge-source.ts';
import '../../components/round/round-screen.ts';
import type { RoundScreen } from '../../components/round/round-screen.ts';
import { foldRound } from '../../src/round/fold-round.ts';
import { expectAccessible } from './accessible.ts';
import { FULL_MAP, inventedRound, memoryLog } from './invented-round.ts';

const PORTRAIT = [
  [390, 844],
  [320, 640],
] as const;
/** Held upright, the desk's own layout. */
const TABLET = [820, 1180] as const;
const LANDSCAPE = [
  [844, 390],
  [640, 320],
] as const;

async function shown(more: Partial<RoundScreen> = {}, read = 0) {
  const log = memoryLog();
  for (const station of FULL_MAP.slice(0, read))
    await log.keep({ act: 'taken', roundId: inventedRound().id, station, thicknessMm: 0.4, flag: 'ok' });
  const el = await fixture<RoundScreen>(
    html`<bench-round
      .round=${inventedRound()}
      .keep=${log.keep}
      .acts=${[...log.acts]}
      reed-label="M-142"
    ></bench-round>`,
  );
  Object.assign(el, more);
  await el.updateComplete;
  return { el, acts: log.acts as readonly Act[] };
}

const all = (el: RoundScreen, selector: string) => [
  ...el.shadowRoot!.querySelectorAll<HTMLElement>(selector),
];
const text = (el: RoundScreen, selector: string) =>
  (el.shadowRoot!.querySelector(selector)?.textContent ?? '').replace(/\s+/g, ' ').trim();
const key = (el: RoundScreen, words: RegExp) =>
  all(el, 'button').find((one) =>
    words.test((one.getAttribute('aria-label') ?? one.textContent ?? '').replace(/\s+/g, ' ').trim()),
  );
async function tap(el: RoundScreen, ...keys: readonly (string | RegExp)[]) {
  for (const one of keys) {
    const found = key(el, typeof one === 'string' ? new RegExp(`^${one}$`) : one);
    expect(found, String(one)).to.be.instanceOf(HTMLButtonElement);
    found!.click();
    await el.updateComplete;
  }
  await new Promise((resolve) => setTimeout(resolve));
  await el.updateComplete;
}
const thicknesses = (acts: readonly Act[]) =>
  acts.flatMap((act) => (act.act === 'taken' ? [act.thicknessMm] : []));

describe('bench-round in the hand', () => {
  beforeEach(() => setViewport({ width: 390, height: 844 }));
  after(() => setViewport({ width: 1280, height: 800 }));

  it('is accessible at a place, at the turn, at an odd reading, at the zero and at the end', async () => {
    await expectAccessible((await shown()).el);
    await expectAccessible((await shown({}, 70)).el);
    const { el } = await shown({ expecting: () => ({ valueMm: 0.46, sdMm: 0.01 }) });
    await tap(el, '6', '4', /^Take/);
    await expectAccessible(el);
    const end = await shown({}, 140);
    await expectAccessible(end.el);
    await tap(end.el, /^Zero again/);
    await expectAccessible(end.el);
  });

  it('has everything in sight, in either hand: nothing scrolls, nothing is cut off', async () => {
    for (const [width, height] of [...PORTRAIT, ...LANDSCAPE]) {
      await setViewport({ width, height });
      for (const read of [0, 70, 140]) {
        const { el } = await shown({}, read);
        const seen = all(el, '.pad button, .big-keys button, .where, .header button, .question h1');
        expect(seen.length).to.be.greaterThan(4);
        for (const one of seen) {
          const { left, right, top, bottom } = one.getBoundingClientRect();
          const what = `${one.textContent} at ${width} x ${height}, ${read} read`;
          expect(Math.min(left, top), what).to.be.at.least(-1);
          expect(right, what).to.be.at.most(width + 1);
          expect(bottom, what).to.be.at.most(height + 1);
        }
        expect(document.documentElement.scrollWidth).to.be.at.most(width);
        el.remove();
      }
    }
  });

  it('has everything in sight on a tablet', async () => {
    const [width, height] = TABLET;
    await setViewport({ width, height });
    document.body.style.margin = '0';
    for (const read of [0, 70]) {
      const { el } = await shown({}, read);
      for (const selector of ['input', '.next', 'aside', 'button']) {
        const seen = all(el, selector).filter((one) => one.checkVisibility());
        expect(seen.length, selector).to.be.greaterThan(0);
        for (const one of seen) {
          const { left, right, top, bottom } = one.getBoundingClientRect();
          const what = `${selector} ${one.className} ${one.textContent?.trim().slice(0, 20)}, ${read} read`;
          expect(Math.min(left, top), what).to.be.at.least(-1);
          expect(right, what).to.be.at.most(width + 1);
          expect(bottom, what).to.be.at.most(height + 1);
        }
      }
      el.remove();
    }
    document.body.style.margin = '';
  });

  it('has its keys under one thumb: large, and in the lower two thirds', async () => {
    for (const [width, height] of PORTRAIT) {
      await setViewport({ width, height });
      const { el } = await shown();
      const keys = all(el, '.pad button');
      expect(keys.length).to.equal(16);
      for (const one of keys) {
        const box = one.getBoundingClientRect();
        expect(box.top, one.textContent ?? '').to.be.at.least(height / 3);
        expect(box.height).to.be.at.least(height > 700 ? 84 : 76);
        expect(box.width).to.be.at.least(60);
      }
      el.remove();
    }
  });

  it('keeps the system keyboard down and the keys where readings go', async () => {
    const { el, acts } = await shown();
    const input = el.shadowRoot!.querySelector('input')!;
    expect(input.inputMode).to.equal('none');
    expect(el.shadowRoot!.activeElement, 'a gauge that types is heard from the first place').to.equal(input);
    await tap(el, '9');
    expect(text(el, '.figure')).to.contain('9');
    await sendKeys({ press: 'Enter' });
    await tap(el, '1', '1');
    await sendKeys({ press: '5' });
    await tap(el, 'Rub out', /^Take/);
    expect(thicknesses(acts)).to.deep.equal([0.09, 0.11]);
    await tap(el, /^Skip/);
    expect(el.shadowRoot!.activeElement?.tagName, 'with a sentence beside it, too').to.equal('INPUT');
    await sendKeys({ type: '12' });
    await sendKeys({ press: 'Enter' });
    await el.updateComplete;
    expect(thicknesses(acts).at(-1)).to.equal(0.12);
  });

  it('hears the key of a question at once, though the reading before it went on by itself', async () => {
    const { el, acts } = await shown({ takes: 'digits' }, 69);
    await tap(el, '4', '1');
    expect(text(el, 'h1')).to.contain('Turn the reed over to B');
    // A habitual Enter and the habitual key that takes are not heard; the question's own key is.
    await sendKeys({ press: 'Enter' });
    expect(text(el, 'h1')).to.contain('Turn the reed over to B');
    await tap(el, /^Yes, on my right/);
    expect(text(el, '.where')).to.match(/^B/);
    await tap(el, '4', '2', /^Take/);
    expect(thicknesses(acts).slice(-2)).to.deep.equal([0.41, 0.42]);
    expect(foldRound(inventedRound(), acts).stations.filter(({ skipped }) => skipped)).to.have.length(0);
  });

  it('goes back, skips with a reason and reads again by touch', async () => {
    const { el, acts } = await shown();
    await tap(el, '9', /^Take/, /^Back/, '8', /^Take/, /^Again/, '1', '0', /^Take/, /^Skip/, 'No cane');
    const { stations } = foldRound(inventedRound(), acts);
    expect(stations[0]!.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.08, 0.1]);
    expect(stations[1]!.skipped).to.equal('no-cane');
  });

  it('takes back the last step behind More, and does it again', async () => {
    const { el, acts } = await shown();
    await tap(el, '9', /^Take/, /^More/, /^Take back/);
    expect(foldRound(inventedRound(), acts).nTaken).to.equal(0);
    await tap(el, /^More/, /^Do it again/);
    expect(foldRound(inventedRound(), acts).nTaken).to.equal(1);
  });

  it('asks for the turn as large as for a place; no means that it was not turned', async () => {
    const { el, acts } = await shown({}, 70);
    expect(text(el, 'h1')).to.equal('Turn the reed over to B. Is the dot on your right?');
    expect(text(el, '.question')).to.contain('A is done: 70 read, none odd.');
    await tap(el, /^No, on my left/);
    expect(text(el, 'h1')).to.contain('Then this is A, or the tip points to you.');
    await tap(el, /^Zero again/, '1', /^\+ or −/, /^Take/);
    expect(acts.at(-1)).to.deep.include({
      act: 'noted',
      text: 'Zero when the reed was turned over: -1 hundredths.',
    });
    await tap(el, /^Yes, on my right/);
    expect(text(el, '.where')).to.contain('B 0.5');
    await tap(el, '9', /^Take/);
    expect(thicknesses(acts).at(-1)).to.equal(0.09);
  });

  it('lets a key or the gauge go on past the question of the turn', async () => {
    const { el, acts } = await shown({}, 70);
    await sendKeys({ press: '9' });
    await sendKeys({ press: 'Enter' });
    await el.updateComplete;
    expect(thicknesses(acts).at(-1)).to.equal(0.09);
    expect(text(el, '.across')).to.equal('left');
  });

  it('asks about an odd reading with what it may have been as the main key', async () => {
    const expecting = () => ({ valueMm: 0.46, sdMm: 0.01 });
    const { el, acts } = await shown({ expecting });
    await tap(el, '6', '4', /^Take/);
    expect(text(el, 'h1')).to.equal('Here 44 to 48 was expected. Is it 46, with its digits turned?');
    await tap(el, /^It is 46/);
    const first = foldRound(inventedRound(), acts).stations[0]!;
    expect(first.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.46]);
    await tap(el, '9', '1', /^Take/, /^Go on/);
    expect(text(el, '.across'), 'left open').to.equal('middle');
    await tap(el, '9', '1', /^Take/, /^Read again/, '4', '7', /^Take/);
    const third = foldRound(inventedRound(), acts).stations[2]!;
    expect(third.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.47]);
  });

  it('tells at the end what is odd, has it read again, takes the zero and finishes', async () => {
    const expecting: RoundScreen['expecting'] = ({ blade, fromTipMm, across }) =>
      blade === 'B' && fromTipMm === 10 && across === 0 ? { valueMm: 0.5, sdMm: 0.01 } : undefined;
    const { el } = await shown({ expecting, round: undefined }, 140);
    el.round = inventedRound();
    await el.updateComplete;
    expect(text(el, 'h1')).to.equal('140 read, one odd. Zero again?');
    expect(text(el, '.telling')).to.equal('40 at B, 10 mm, middle: 48 to 52 was expected.');
    await tap(el, /^Read the odd/, '5', '0', /^Take/);
    expect(text(el, 'h1')).to.equal('140 read, none odd. Zero again?');
    await tap(el, /^Read three again/, /^Skip/, /^Skip/);
    expect(text(el, 'h1'), 'the third of them').not.to.contain('none odd');
    await tap(el, /^Skip/);
    expect(text(el, 'h1')).to.equal('140 read, none odd. Zero again?');
    expect(text(el, '.big-keys'), 'offered once').not.to.contain('Read three again');
    const finished = new Promise<number | undefined>((resolve) =>
      el.addEventListener('bench-round-finish', (event) => resolve(event.zeroAfterMm)),
    );
    await tap(el, /^Zero again/, '1', /^Take/);
    expect(text(el, 'h1')).to.equal('140 read, none odd. Zero: 1.');
    await tap(el, /^Keep these/);
    expect(await finished).to.equal(0.01);
  });

  it('takes the zero from a gauge on a cable', async () => {
    let tell: GaugeListener = () => undefined;
    const gauge: GaugeSource = {
      name: 'invented',
      state: { is: 'open' },
      listen: (listener) => {
        tell = listener;
        return () => undefined;
      },
      release: () => undefined,
      close: () => Promise.resolve(),
    };
    const { el } = await shown({ gauge }, 140);
    await tap(el, /^Zero again/);
    tell({ kind: 'reading', thicknessMm: 0.02 });
    await el.updateComplete;
    expect(text(el, 'h1')).to.contain('Zero: 2.');
  });

  it('turns its digits over where the maker wants the number pad', async () => {
    const { el } = await shown({ digits: 'number-pad', decimal: 'comma' });
    const digits = all(el, '.pad .digit').map(({ textContent }) => textContent?.trim());
    expect(digits.slice(0, 3)).to.deep.equal(['7', '8', '9']);
    expect(digits).to.include(',');
  });
});
