import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import { sendKeys, setViewport } from '@web/test-runner-commands';
import type { Place } from '../../shared/blade.ts';
import type { Act } from '../../shared/round.ts';
import { foldRound } from '../../src/round/fold-round.ts';
import { passFromRound } from '../../src/round/round-to-pass.ts';
import type { KeepAct } from '../../components/round/act-queue.ts';
import type { GaugeListener, GaugeSource } from '../../components/gauge/gauge-source.ts';
import '../../components/round/round-screen.ts';
import type { RoundScreen } from '../../components/round/round-screen.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { expectAccessible } from './accessible.ts';
import { FULL_MAP, inventedCount, inventedRound, memoryLog } from './invented-round.ts';

interface Shown {
  el: RoundScreen;
  acts: readonly Act[];
}

async function shown(more: Partial<RoundScreen> = {}, log = memoryLog()): Promise<Shown> {
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
  return { el, acts: log.acts };
}

const text = (el: RoundScreen, selector: string) =>
  (el.shadowRoot!.querySelector(selector)?.textContent ?? '').replace(/\s+/g, ' ').trim();
const where = (el: RoundScreen) => `${text(el, '.where')} ${text(el, '.across')}`;
const kept = async (el: RoundScreen) => {
  await new Promise((resolve) => setTimeout(resolve));
  await el.updateComplete;
};
const press = async (...keys: string[]) => {
  for (const key of keys) await sendKeys({ press: key });
};
const pressWithControl = async (...keys: string[]) => {
  await sendKeys({ down: 'Control' });
  await press(...keys);
  await sendKeys({ up: 'Control' });
};
const once = <N extends keyof HTMLElementEventMap>(el: RoundScreen, name: N) =>
  new Promise<HTMLElementEventMap[N]>((resolve) => el.addEventListener(name, resolve, { once: true }));
/** Presses a key, at a time of the test's own where the time counts: a busy machine presses slowly. */
const pressCode = (el: RoundScreen, init: KeyboardEventInit, atMs?: number) => {
  const event = new KeyboardEvent('keydown', { bubbles: true, composed: true, cancelable: true, ...init });
  if (atMs !== undefined) Object.defineProperty(event, 'timeStamp', { value: atMs });
  el.shadowRoot!.querySelector('input')!.dispatchEvent(event);
};
const thicknesses = (acts: readonly Act[]) =>
  acts.flatMap((act) => (act.act === 'taken' ? [act.thicknessMm] : []));

describe('bench-round', () => {
  it('is accessible at the start, in the middle and at the end', async () => {
    const { el } = await shown();
    await expectAccessible(el);
    const log = memoryLog();
    for (const station of FULL_MAP) {
      await log.keep({ act: 'taken', roundId: inventedRound().id, station, thicknessMm: 0.4, flag: 'ok' });
    }
    const end = await shown({}, log);
    expect(text(end.el, '.end')).to.contain('140 read, none odd. Zero again?');
    await expectAccessible(end.el);
  });

  it('takes 140 readings by keys alone, one key beyond the digits for each, and becomes a pass', async () => {
    const { el, acts } = await shown();
    for (const place of FULL_MAP) await sendKeys({ type: `${inventedCount(place)}\n` });
    await kept(el);
    expect(thicknesses(acts)).to.deep.equal(FULL_MAP.map((place) => inventedCount(place) / 100));
    expect(text(el, '.done')).to.equal('140 of 140');
    // The end offers three places again: Enter goes to them, * past one, Enter past the others, none is asked twice.
    expect(text(el, '.end')).to.contain('Read three places again, to see whether the zero crept?');
    await new Promise((resolve) => setTimeout(resolve, 650));
    await press('Enter');
    await el.updateComplete;
    expect(text(el, '.sentence')).to.match(/^\d+ stays on record/);
    const again = el.place!;
    await press(...String(inventedCount(again) + 2), 'Enter');
    await kept(el);
    expect(acts.at(-1), 'beside the first').to.deep.include({ act: 'taken', station: again });
    expect(acts.at(-1)).not.to.have.property('replaces');
    await press('*');
    expect(el.place!.fromTipMm).not.to.equal(again.fromTipMm);
    await new Promise((resolve) => setTimeout(resolve, 650));
    await press('Enter');
    await el.updateComplete;
    expect(text(el, '.end')).not.to.contain('whether the zero crept');
    const finished = once(el, 'bench-round-finish');
    await press('1', 'Enter');
    const { acts: log, zeroAfterMm } = await finished;
    expect(zeroAfterMm).to.equal(0.01);
    const pass = passFromRound(inventedRound(), foldRound(inventedRound(), log));
    const first = pass.readings.filter(({ repeat }) => repeat === 0);
    expect(first.map(({ thicknessMm }) => thicknessMm)).to.deep.equal(thicknesses(acts).slice(0, 140));
    expect(pass.readings).to.have.length(141);
  });

  it('says where it is: blade, distance and place across', async () => {
    const { el } = await shown();
    expect(where(el)).to.equal('A 0.5 mm from the tip left edge');
    expect(text(el, '.sentence')).to.equal('Is the dot on your left?');
    await press('9', 'Enter');
    await kept(el);
    expect(where(el)).to.equal('A 0.5 mm from the tip left');
    expect(text(el, '[aria-live]')).to.equal('9. Next A, 0.5 mm, left.');
  });

  it('shows a station as taken only when its act is on the disk', async () => {
    const release: (() => void)[] = [];
    const log = memoryLog();
    const keep: KeepAct = async (draft) => {
      await new Promise<void>((resolve) => release.push(resolve));
      return log.keep(draft);
    };
    const { el } = await shown({ keep });
    await press('9', 'Enter', '1', '1', 'Enter');
    expect(where(el), 'keys do not wait').to.equal('A 0.5 mm from the tip middle');
    expect(text(el, '.done')).to.equal('0 of 140');
    expect(el.shadowRoot!.querySelectorAll('aside [data-is="waiting"]').length).to.equal(2);
    release.shift()!();
    await kept(el);
    expect(text(el, '.done')).to.equal('1 of 140');
    expect(el.shadowRoot!.querySelectorAll('aside [data-is="taken"]').length).to.equal(1);
  });

  it('keeps what could not be kept on the screen, says so, and keeps it in order later', async () => {
    let full = true;
    const log = memoryLog();
    const keep: KeepAct = (draft) =>
      full ? Promise.reject(new Error('The disk is full.')) : log.keep(draft);
    const { el } = await shown({ keep });
    await press('9', 'Enter', '1', '1', 'Enter');
    await kept(el);
    expect(text(el, '[role=alert]')).to.contain('2 things wait on this screen');
    expect(text(el, '[role=alert]')).to.contain('The disk is full.');
    full = false;
    el.shadowRoot!.querySelector<HTMLButtonElement>('[role=alert] button')!.click();
    await kept(el);
    await kept(el);
    expect(thicknesses(log.acts)).to.deep.equal([0.09, 0.11]);
    expect(text(el, '[role=alert]')).to.equal('');
  });

  it('marks an odd reading, keeps it and goes on; never shows what is expected before', async () => {
    const asked: Place[] = [];
    const expecting = (place: Place) => {
      asked.push(place);
      return { valueMm: 0.46, sdMm: 0.01, lastTimeMm: 0.45 };
    };
    const { el, acts } = await shown({ expecting });
    expect(asked.length, 'asked before a reading').to.equal(0);
    expect(el.shadowRoot!.textContent).not.to.match(/expected|4[56]/);
    await press('6', '4', 'Enter');
    await kept(el);
    expect(asked.length).to.equal(1);
    expect(text(el, '.sentence')).to.equal(
      'Odd for A, 0.5 mm, left edge: 44 to 48 was expected, 45 last time. It may be 46 with its digits turned. It is kept. Read again, or go on.',
    );
    expect(thicknesses(acts)).to.deep.equal([0.64]);
    expect(where(el)).to.contain('left');
    await press('+', '4', '6', 'Enter');
    await kept(el);
    const [state] = foldRound(inventedRound(), acts).stations;
    expect(state!.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.46]);
  });

  it('goes back one and replaces, reads again and keeps both, skips with a reason', async () => {
    const { el, acts } = await shown();
    await press('9', 'Enter', '-');
    expect(where(el)).to.equal('A 0.5 mm from the tip left edge');
    await press('8', 'Enter', '+', '1', '0', 'Enter', '*');
    await kept(el);
    expect(text(el, '.sentence')).to.equal('Skipped A, 0.5 mm, left: out of reach.');
    const chips = [...el.shadowRoot!.querySelectorAll<HTMLButtonElement>('.heard .chips button')];
    chips.find((chip) => chip.textContent?.trim() === 'No cane')!.click();
    await kept(el);
    const { stations } = foldRound(inventedRound(), acts);
    expect(stations[0]!.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.08, 0.1]);
    expect(stations[1]!.skipped).to.equal('no-cane');
    expect(where(el)).to.equal('A 0.5 mm from the tip middle');
  });

  it('undoes and redoes without limit', async () => {
    const { el, acts } = await shown();
    await press('9', 'Enter', '1', '1', 'Enter', '1', '2', 'Enter');
    await pressWithControl('z', 'z', 'z');
    await kept(el);
    expect(foldRound(inventedRound(), acts).nTaken).to.equal(0);
    expect(where(el)).to.contain('left edge');
    await pressWithControl('y', 'y');
    await kept(el);
    expect(foldRound(inventedRound(), acts).nTaken).to.equal(2);
  });

  it('marks the last reading unsure', async () => {
    const { el, acts } = await shown();
    await press('9', 'Enter', '/');
    await kept(el);
    expect(foldRound(inventedRound(), acts).stations[0]!.readings[0]!.flag).to.equal('doubtful');
  });

  it('needs nothing but the number pad, NumLock on or off', async () => {
    const { el, acts } = await shown();
    for (const [key, code] of [
      ['PageUp', 'Numpad9'],
      ['Enter', 'NumpadEnter'],
      ['Delete', 'NumpadDecimal'],
      ['End', 'Numpad1'],
      ['End', 'Numpad1'],
      ['Enter', 'NumpadEnter'],
    ] as const) {
      pressCode(el, { key, code });
    }
    await kept(el);
    expect(thicknesses(acts)).to.deep.equal([0.09, 0.11]);
  });

  it('hears a gauge that types, its sign and its closing Tab', async () => {
    const { el, acts } = await shown();
    ['+', '0', '.', '0', '9', 'Tab', '+', '0', ',', '1', '1', 'Enter'].forEach((key, i) =>
      pressCode(el, { key }, 1000 + 10 * i),
    );
    await kept(el);
    expect(thicknesses(acts)).to.deep.equal([0.09, 0.11]);
    expect(where(el)).to.equal('A 0.5 mm from the tip middle');
  });

  it('refuses to guess, explains, and lets the maker choose what the gauge counts', async () => {
    const { el, acts } = await shown();
    await press('4', '6', '7', 'Enter');
    await el.updateComplete;
    expect(text(el, '.sentence')).to.contain('467 may be 0.467 mm or 4.67 mm');
    expect(acts.length).to.equal(0);
    const counted = once(el, 'bench-round-count');
    el.shadowRoot!.querySelector<HTMLButtonElement>('.heard .chips button')!.click();
    expect((await counted).count).to.equal('thousandths');
    await press('4', '6', '7', 'Enter');
    await kept(el);
    expect(thicknesses(acts)).to.deep.equal([0.467]);
  });

  it('does not take a key while a word is being composed', async () => {
    const { el, acts } = await shown();
    pressCode(el, { key: '4' });
    pressCode(el, { key: 'Enter', isComposing: true });
    await kept(el);
    expect(acts.length).to.equal(0);
  });

  it('takes what a gauge sends, once, though it comes by two roads', async () => {
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
    const { el, acts } = await shown({ gauge });
    const atMs = performance.now();
    tell({ kind: 'reading', thicknessMm: 0.46 });
    for (const key of ['4', '6', 'Enter']) pressCode(el, { key }, atMs);
    await kept(el);
    expect(thicknesses(acts)).to.deep.equal([0.46]);
    // In the soft first 3 mm the lowest value is a dent: what the gauge shows counts there.
    tell({ kind: 'live', shownMm: 0.11, lowestMm: 0.1 });
    await press('Enter');
    await kept(el);
    expect(acts.at(-1)).to.include({ thicknessMm: 0.11 }).and.not.have.property('method');
    el.goTo({ blade: 'A', fromTipMm: 8, across: 0 });
    tell({ kind: 'live', shownMm: 0.5, lowestMm: 0.48 });
    await press('Enter');
    await kept(el);
    expect(acts.at(-1)).to.include({ thicknessMm: 0.48, method: 'lowest' });
    tell({
      kind: 'state',
      state: { is: 'lost', why: 'The gauge is silent. Type, or plug it in; nothing is lost.' },
    });
    await el.updateComplete;
    expect(text(el, '[role=alert]')).to.equal('The gauge is silent. Type, or plug it in; nothing is lost.');
  });

  it('goes on where a round was put down', async () => {
    const log = memoryLog();
    for (const station of FULL_MAP.slice(0, 71)) {
      await log.keep({ act: 'taken', roundId: inventedRound().id, station, thicknessMm: 0.4, flag: 'ok' });
    }
    const { el } = await shown({}, log);
    expect(text(el, '.sentence')).to.contain('71 of 140 were read and kept.');
    expect(where(el)).to.equal('B 0.5 mm from the tip left');
  });

  it('draws the dot of side 1 at the left of A and at the right of B', async () => {
    const dotIsLeft = async (n: number) => {
      const log = memoryLog();
      for (const station of FULL_MAP.slice(0, n)) {
        await log.keep({ act: 'taken', roundId: inventedRound().id, station, thicknessMm: 0.4, flag: 'ok' });
      }
      const { el } = await shown({}, log);
      const svg = el.shadowRoot!.querySelector('aside svg')!;
      const x = Number(svg.querySelector('.side-1')!.getAttribute('cx'));
      return x < Number(svg.querySelector('.name')!.getAttribute('x'));
    };
    expect(await dotIsLeft(0)).to.equal(true);
    expect(await dotIsLeft(70)).to.equal(false);
  });

  it('renders once for each key, and once more when the act is kept', async () => {
    const { el } = await shown();
    let renders = 0;
    const update = el.render.bind(el);
    el.render = () => {
      renders += 1;
      return update();
    };
    pressCode(el, { key: '9' });
    await el.updateComplete;
    expect(renders).to.equal(1);
    pressCode(el, { key: 'Enter' });
    await kept(el);
    expect(renders).to.be.at.most(3);
  });

  it('fits 390, 1024 and 1440 pixels and 200 % zoom without scrolling sideways, with keys 84 px high', async () => {
    for (const [width, height] of [
      [1440, 900],
      [1024, 768],
      [390, 844],
      [195, 422],
    ] as const) {
      await setViewport({ width, height });
      const { el } = await shown();
      expect(document.documentElement.scrollWidth, `${width} wide`).to.be.at.most(width);
      const keys = el.shadowRoot!.querySelectorAll('.keys button, .pad button');
      expect(keys.length).to.be.at.least(3);
      for (const key of keys) expect(key.getBoundingClientRect().height).to.be.at.least(84);
      el.remove();
    }
    await setViewport({ width: 1280, height: 800 });
  });

  it('has its reading and its next place large enough to be read from 1.5 m', async () => {
    // From memory: ISO 9241-303 recommends characters of 20 to 22 minutes of arc. A CSS pixel is 1/96 inch.
    const LEAST_MINUTES = 20;
    const drawing = new OffscreenCanvas(1, 1).getContext('2d')!;
    for (const [width, height] of [
      [1440, 900],
      [1024, 768],
      [390, 844],
    ] as const) {
      await setViewport({ width, height });
      const { el } = await shown();
      for (const selector of ['.figure', '.where .blade']) {
        const { fontWeight, fontSize, fontFamily } = getComputedStyle(
          el.shadowRoot!.querySelector(selector)!,
        );
        drawing.font = `${fontWeight} ${fontSize} ${fontFamily}`;
        const mm = (drawing.measureText('0').actualBoundingBoxAscent * 25.4) / 96;
        const minutes = (Math.atan(mm / 1500) * 180 * 60) / Math.PI;
        expect(minutes, `${selector}, ${width} wide`).to.be.at.least(LEAST_MINUTES);
      }
      el.remove();
    }
    await setViewport({ width: 1280, height: 800 });
  });

  it('goes on by itself after two digits where the maker wants it; a habitual Enter is not in the way', async () => {
    const { el, acts } = await shown({ takes: 'digits' });
    await press('0', '9', '1', '1', 'Enter', '.', '1', '3', 'Enter');
    await kept(el);
    expect(thicknesses(acts)).to.deep.equal([0.09, 0.11, 0.13]);
    await press('Backspace');
    await el.updateComplete;
    expect(where(el), 'back by a second rub-out').to.equal('A 0.5 mm from the tip middle');
    await press('1', '4');
    await kept(el);
    expect(acts.at(-1)).to.deep.include({ thicknessMm: 0.14, replaces: acts[2]!.id });
  });

  it('takes by a foot switch what a gauge shows', async () => {
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
    const { el, acts } = await shown({ gauge });
    tell({ kind: 'live', shownMm: 0.11 });
    await press('PageDown');
    await kept(el);
    expect(thicknesses(acts)).to.deep.equal([0.11]);
    await press('PageUp');
    await el.updateComplete;
    expect(where(el)).to.equal('A 0.5 mm from the tip left edge');
  });

  it('answers an odd reading where it stands: as it was meant, or as read', async () => {
    const expecting = () => ({ valueMm: 0.46, sdMm: 0.01 });
    const { el, acts } = await shown({ expecting });
    const chip = (words: string) =>
      [...el.shadowRoot!.querySelectorAll<HTMLButtonElement>('.heard .chips button')].find(
        (one) => one.textContent?.trim() === words,
      )!;
    await press('6', '4', 'Enter');
    await kept(el);
    chip('It is 46').click();
    await kept(el);
    const first = () => foldRound(inventedRound(), acts).stations[0]!;
    expect(first().readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.46]);
    await press('9', '1', 'Enter');
    await kept(el);
    chip('91, as read').click();
    await kept(el);
    expect(text(el, '.sentence')).to.equal('');
    expect(el.shadowRoot!.querySelectorAll('aside .lozenge').length).to.equal(0);
    expect(foldRound(inventedRound(), acts).stations[1]!.readings[0]!.confirmed).to.equal(true);
  });

  it('asks a screen keyboard for digits, and has no target smaller than 44 px', async () => {
    const { el } = await shown();
    const input = el.shadowRoot!.querySelector('input')!;
    expect(input.inputMode).to.equal('decimal');
    expect(input.enterKeyHint).to.equal('next');
    for (const target of el.shadowRoot!.querySelectorAll('button, select')) {
      const { width, height } = target.getBoundingClientRect();
      if (height > 0) expect(Math.min(width, height), target.textContent ?? '').to.be.at.least(44);
    }
  });

  it('shows older readings paler with their date, but none where one is still to be read', async () => {
    const older = [
      {
        blade: 'A',
        fromTipMm: 7,
        across: 0,
        thicknessMm: 0.46,
        passIndex: 2,
        takenAt: '2026-02-01T20:00:00Z',
      },
      { blade: 'A', fromTipMm: 6.1, across: 0, thicknessMm: 0.44, passIndex: 2 },
      { blade: 'B', fromTipMm: 7, across: 0, thicknessMm: 0.47, passIndex: 2 },
    ] as const;
    const { el } = await shown({ older });
    const figures = [...el.shadowRoot!.querySelectorAll('aside .older')].map(
      (one) => one.lastChild!.textContent,
    );
    expect(figures).to.deep.equal(['46']);
    expect(text(el, 'aside')).to.contain(`Paler, not read in this pass: pass 2, ${dayWords('2026-02-01')}.`);
  });

  it('reads a place that was not asked for, by a click on the blade or by its name', async () => {
    const { el, acts } = await shown();
    const picture = el.shadowRoot!.querySelector('aside .outline')!;
    const name = picture.querySelector('.name')!.getBoundingClientRect();
    const [five, ten] = ['5', '10'].map((mm) =>
      [...picture.querySelectorAll('text.word')]
        .find((word) => word.textContent === mm)!
        .getBoundingClientRect(),
    );
    // Nine mm from the tip lies between two rows of the round.
    const clientY = five!.top + five!.height / 2 + 0.8 * (ten!.top - five!.top);
    const clientX = (name.left + name.right) / 2;
    picture.dispatchEvent(new MouseEvent('click', { bubbles: true, composed: true, clientX, clientY }));
    await el.updateComplete;
    expect(where(el)).to.equal('A 9 mm from the tip middle');
    await press('4', '7', 'Enter');
    await kept(el);
    expect(acts.at(-1)).to.deep.include({
      thicknessMm: 0.47,
      station: { blade: 'A', fromTipMm: 9, across: 0, role: 'station' },
    });
    expect(where(el)).to.equal('A 0.5 mm from the tip left edge');
    const other = el.shadowRoot!.querySelector('bench-other-place')!;
    const inOther = <E extends HTMLElement>(selector: string) =>
      other.shadowRoot!.querySelector<E>(selector)!;
    inOther('summary').focus();
    await press('Enter');
    inOther('[name=from-tip]').focus();
    await sendKeys({ type: '4,5' });
    await press('Enter');
    await el.updateComplete;
    expect(where(el)).to.equal('A 4.5 mm from the tip middle');
    await press('3', '1', 'Enter');
    await kept(el);
    expect(acts.at(-1)).to.deep.include({ thicknessMm: 0.31 });
  });
});
