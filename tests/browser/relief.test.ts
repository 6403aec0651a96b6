import { expect } from 'chai';
import { aTimeout, fixture, html, nextFrame, oneEvent, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys, sendMouse } from '@web/test-runner-commands';
import '../../components/relief/relief.ts';
import type { Relief } from '../../components/relief/relief.ts';
import type { ReliefBlade } from '../../components/relief/relief-data.ts';
import type { MapProbeEvent } from '../../components/map/map-events.ts';
import { contextOfPage, heldResources } from '../../components/scene/shared-renderer.ts';
import { THEMES } from '../../components/theme/palette.ts';
import { chooseTheme } from '../../components/theme/theme-controller.ts';
import { channels } from '../../components/theme/contrast.ts';
import { bandOf, ramp } from '../../components/theme/ramp.ts';
import { expectAccessible } from './accessible.ts';
import { inventedBlade, inventedMm } from './blades.ts';

function bare(blade: 'A' | 'B'): ReliefBlade {
  return { ...inventedBlade(blade), zones: [], pins: [] };
}

/** Everything that a blade can carry. */
function laden(blade: 'A' | 'B'): ReliefBlade {
  const data = inventedBlade(blade);
  const { valuesMm } = data;
  return {
    ...data,
    pins: data.marks.map((mark) => ({ ...mark, thicknessMm: mark.valueMm + 0.01 })),
    originalMm: Array.from(valuesMm, (value) => value + 0.1),
    floorMm: Array.from(valuesMm, (value) => value - 0.02),
  };
}

/** The same on every other line of the grid: cheap to draw. */
function small(name: 'A' | 'B'): ReliefBlade {
  const { ysMm, us, halfWidthMm, pins, ...rest } = laden(name);
  const [rows, columns] = [24, 10];
  const thin = (values: ArrayLike<number>) =>
    Array.from(
      { length: rows * columns },
      (_, k) => values[2 * Math.floor(k / columns) * us.length + 2 * (k % columns)]!,
    );
  const every = (values: ArrayLike<number>, count: number) =>
    Array.from({ length: count }, (_, k) => values[2 * k]!);
  return {
    ...rest,
    ysMm: every(ysMm, rows),
    us: every(us, columns),
    halfWidthMm: every(halfWidthMm, rows),
    pins: pins.slice(0, 5),
    valuesMm: thin(rest.valuesMm),
    originalMm: thin(rest.originalMm!),
    floorMm: thin(rest.floorMm!),
  };
}

/** Counts what is listened to on these targets from now on and not given up again. */
function countListeners(targets: readonly EventTarget[]) {
  const open = new Set<string>();
  const ids = new Map<unknown, number>();
  const idOf = (listener: unknown) => ids.get(listener) ?? ids.set(listener, ids.size).get(listener)!;
  const undo = targets.map((target, t) => {
    const { addEventListener, removeEventListener } = target;
    const key = (type: string, listener: unknown) => `${t} ${type} ${idOf(listener)}`;
    target.addEventListener = (type: string, listener: EventListener, options?: AddEventListenerOptions) => {
      open.add(key(type, listener));
      if (typeof options === 'object')
        options.signal?.addEventListener('abort', () => open.delete(key(type, listener)));
      addEventListener.call(target, type, listener, options);
    };
    target.removeEventListener = (type: string, listener: EventListener, options?: EventListenerOptions) => {
      open.delete(key(type, listener));
      removeEventListener.call(target, type, listener, options);
    };
    return () => Object.assign(target, { addEventListener, removeEventListener });
  });
  return { left: () => open.size, stop: () => undo.forEach((restore) => restore()) };
}

async function shown(settings: Partial<Relief>): Promise<Relief> {
  const el = await fixture<Relief>(html`<bench-relief></bench-relief>`);
  // Small, so that several are in sight at once.
  el.style.setProperty('width', '300px');
  Object.assign(el, settings);
  await waitUntil(() => el.cost.frames > 0, 'a first frame', { timeout: 10_000 });
  return el;
}

const canvasOf = (el: Relief) => el.shadowRoot!.querySelector('canvas')!;

function picture(el: Relief): ImageData {
  const canvas = el.snapshot()!;
  return canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
}

/** Where a place stands on the canvas: the scale's labels stand there. */
function labelAt(el: Relief, text: string): [number, number] {
  const label = [...el.shadowRoot!.querySelectorAll<HTMLElement>('.labels span')].find(
    (span) => span.textContent === text,
  )!;
  const px = (name: string) => parseFloat(label.style.getPropertyValue(name));
  return [px('--left'), px('--top')];
}

describe('bench-relief', () => {
  afterEach(() => chooseTheme(document.documentElement, 'system'));

  it('fetches nothing to draw with until it comes into sight', async () => {
    const el = await fixture<Relief>(html`<bench-relief hidden></bench-relief>`);
    el.blades = [bare('A')];
    await aTimeout(100);
    expect(el.shadowRoot!.querySelector('canvas')).to.equal(null);
    expect(heldResources().contexts).to.equal(0);
  });

  it('is accessible', async () => {
    await expectAccessible(
      await shown({ blades: [bare('A'), bare('B')], label: 'Both blades, thin at the tip' }),
    );
  });

  for (const theme of THEMES)
    it(`shows every place in the colour that the legend gives its thickness, ${theme}`, async () => {
      chooseTheme(document.documentElement, theme);
      const el = await shown({ blades: [bare('A')] });
      el.look('above');
      const { data, width } = picture(el);
      const canvas = canvasOf(el);
      const box = canvas.getBoundingClientRect();
      let place: MapProbeEvent['place'];
      el.addEventListener('bench-map-probe', (event) => (place = event.place));
      const scale = ramp('thickness', theme);
      let compared = 0;
      for (let y = 8; y < canvas.clientHeight; y += 1)
        for (let x = 100; x < 200; x += 7) {
          // The middle of a pixel, and the place of the blade that is drawn there.
          const at = { clientX: box.left + x + 0.5, clientY: box.top + y + 0.5 };
          canvas.dispatchEvent(new PointerEvent('pointermove', at));
          if (!place) continue;
          const thicknessMm = inventedMm(place.fromTipMm, place.across);
          const { fromMm, toMm, colour } = scale.bands[bandOf(scale, thicknessMm)]!;
          const toContour = Math.abs(thicknessMm / 0.01 - Math.round(thicknessMm / 0.01)) * 0.01;
          const toBorder = Math.min(thicknessMm - fromMm, toMm - thicknessMm);
          // A pixel is about 0.12 mm, 0.0024 mm of thickness, and a line is one wide: stay off lines, borders and the rim.
          if (toContour < 0.0038 || toBorder < 0.004 || Math.abs(place.across) > 0.9) continue;
          const first = 4 * (Math.round((y * canvas.height) / box.height) * width + x);
          // One step of an 8-bit channel for the way through linear light and back.
          channels(colour).forEach((channel, k) => expect(data[first + k]!).to.be.closeTo(channel, 1));
          compared++;
        }
      expect(compared).to.be.above(100);
    });

  it('draws no frame while nothing changes, and one when something does', async () => {
    const el = await shown({ blades: [bare('A')] });
    await aTimeout(200);
    const { frames } = el.cost;
    await aTimeout(5000);
    expect(el.cost.frames).to.equal(frames);
    el.probe = { blade: 'A', fromTipMm: 5, across: 0 };
    await waitUntil(() => el.cost.frames === frames + 1, 'one more frame');
  });

  it('draws two blades with everything on them in at most 40 calls', async () => {
    const el = await shown({ blades: [laden('A'), laden('B')], cutAtMm: 8 });
    expect(el.cost.drawCalls).to.be.within(10, 40);
  });

  it('turns by keys and by hand', async () => {
    const el = await shown({ blades: [bare('A')] });
    const before = labelAt(el, '10');
    canvasOf(el).focus();
    await sendKeys({ press: 'ArrowLeft' });
    await waitUntil(() => labelAt(el, '10')[0] !== before[0], 'turned by a key');
    const turned = labelAt(el, '10');
    const box = canvasOf(el).getBoundingClientRect();
    const middle = [box.left + box.width / 2, box.top + box.height / 2].map(Math.round) as [number, number];
    await sendMouse({ type: 'move', position: middle });
    await sendMouse({ type: 'down' });
    await sendMouse({ type: 'move', position: [middle[0] + 60, middle[1]] });
    await sendMouse({ type: 'up' });
    await waitUntil(() => labelAt(el, '10')[0] !== turned[0], 'turned by hand');
  });

  it('looks from each of its preset directions', async () => {
    const el = await shown({ blades: [bare('A'), bare('B')] });
    const buttons = [...el.shadowRoot!.querySelectorAll<HTMLButtonElement>('.controls button')].slice(0, 5);
    const seen = new Set<string>();
    for (const button of buttons) {
      button.click();
      seen.add(el.snapshot()!.toDataURL());
    }
    expect(seen.size).to.equal(5);
  });

  it('marks a probed place and, on the other blade, what faces it', async () => {
    const el = await shown({ blades: [bare('A'), bare('B')] });
    el.look('above');
    const before = picture(el);
    el.probe = { blade: 'A', fromTipMm: 10, across: 0.5 };
    await el.updateComplete;
    const after = picture(el);
    const middle = before.width / 2;
    const columns: Record<'left' | 'right', number[]> = { left: [], right: [] };
    for (let k = 0; k < before.data.length; k += 4)
      if ([0, 1, 2].some((channel) => before.data[k + channel] !== after.data[k + channel])) {
        const x = (k / 4) % before.width;
        columns[x < middle ? 'left' : 'right'].push(x);
      }
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(Math.min(columns.left.length, columns.right.length)).to.be.above(5);
    // A at +0.5 of its width faces B at -0.5: as far from the middle of the picture, on its other side.
    expect(mean(columns.left) + mean(columns.right)).to.be.closeTo(before.width - 1, 3);
    expect(middle - mean(columns.left)).to.be.below(middle / 2);
  });

  it('has the values of its contour lines written on them, where there is room', async () => {
    const el = await shown({ blades: [bare('A')] });
    el.look('above');
    picture(el);
    const labels = [...el.shadowRoot!.querySelectorAll<HTMLElement>('.labels .level')].filter(
      ({ hidden }) => !hidden,
    );
    expect(labels.length).to.be.above(3);
    const box = canvasOf(el).getBoundingClientRect();
    for (const label of labels) {
      const [left, top] = ['--left', '--top'].map((name) => parseFloat(label.style.getPropertyValue(name)));
      const probed = oneEvent<MapProbeEvent>(el, 'bench-map-probe');
      await sendMouse({ type: 'move', position: [Math.round(box.left + left!), Math.round(box.top + top!)] });
      const { place } = await probed;
      // The invented blade's middle: 0.08 mm at the tip and 0.02 more a mm. A pointer's whole pixel is 0.12 mm.
      expect(place!.fromTipMm).to.be.closeTo((Number(label.textContent) / 100 - 0.08) / 0.02, 0.3);
      expect(place!.across).to.be.closeTo(0, 0.05);
    }
  });

  it('tells the place of the blade under the pointer', async () => {
    const el = await shown({ blades: [bare('A')] });
    el.look('above');
    picture(el);
    const box = canvasOf(el).getBoundingClientRect();
    const [, top] = labelAt(el, '10');
    const [left] = labelAt(el, 'A');
    const probed = oneEvent<MapProbeEvent>(el, 'bench-map-probe');
    await sendMouse({ type: 'move', position: [Math.round(box.left + left), Math.round(box.top + top)] });
    const { place } = await probed;
    expect(place!.blade).to.equal('A');
    // Pointer positions are whole pixels, 0.12 mm; the label stands at an edge that is 0.3 mm lower than the middle.
    expect(place!.fromTipMm).to.be.closeTo(10, 0.5);
    expect(place!.across).to.be.closeTo(0, 0.05);
  });

  it('moves the probe with Shift and the arrows, and keeps it on the blade', async () => {
    const el = await shown({ blades: [bare('A')], probe: { blade: 'A', fromTipMm: 0.2, across: 0.95 } });
    canvasOf(el).focus();
    const along = oneEvent<MapProbeEvent>(el, 'bench-map-probe');
    await sendKeys({ down: 'Shift' });
    await sendKeys({ press: 'ArrowUp' });
    expect((await along).place).to.deep.equal({ blade: 'A', fromTipMm: 0, across: 1 });
    el.probe = { blade: 'A', fromTipMm: 5, across: 0 };
    await el.updateComplete;
    const across = oneEvent<MapProbeEvent>(el, 'bench-map-probe');
    await sendKeys({ press: 'ArrowLeft' });
    await sendKeys({ up: 'Shift' });
    expect((await across).place).to.deep.equal({ blade: 'A', fromTipMm: 5, across: -0.1 });
  });

  it('shows the floor through the cane, and strongly where the bark comes near it', async () => {
    const data = inventedBlade('A');
    const floors = (underMm: number) => Array.from(data.valuesMm, (value) => value - underMm);
    const el = await shown({ blades: [bare('A')] });
    el.look('above');
    const [, top] = labelAt(el, '10');
    const x = Math.round(canvasOf(el).width / 2);
    const colour = async (floorMm?: number[]) => {
      el.blades = [{ ...bare('A'), ...(floorMm && { floorMm }) }];
      await el.updateComplete;
      el.look('above');
      const { data: pixels, width, height } = picture(el);
      const y = Math.round((top * height) / canvasOf(el).clientHeight);
      return pixels.slice(4 * (y * width + x), 4 * (y * width + x) + 3);
    };
    const away = (one: Uint8ClampedArray, other: Uint8ClampedArray) =>
      Math.hypot(...Array.from(one, (value, k) => value - other[k]!));
    const plain = await colour();
    const far = await colour(floors(0.1));
    const near = await colour(floors(0.01));
    expect(away(far, plain)).to.be.above(5);
    expect(away(near, plain)).to.be.above(2 * away(far, plain));
  });

  it('outlives the loss of its context', async () => {
    const el = await shown({ blades: [bare('A')] });
    await waitUntil(() => picture(el).data.some((value) => value > 0), 'the first picture');
    const { log } = console;
    // The library reports the loss and the return: what this test is about.
    console.log = () => undefined;
    const lose = contextOfPage()!.getExtension('WEBGL_lose_context')!;
    lose.loseContext();
    await aTimeout(50);
    const { frames } = el.cost;
    expect(
      picture(el).data.some((value) => value > 0),
      'the last picture stays',
    ).to.equal(true);
    lose.restoreContext();
    await waitUntil(() => el.cost.frames > frames, 'a frame after the context came back');
    console.log = log;
  });

  it('leaves no context, geometry, texture or listener behind after 200 times on the page', async function (this: Mocha.Context) {
    this.timeout(60_000);
    // One of the same stays, so that programs of the graphics card are made once.
    const settings = { blades: [small('A'), small('B')], cutAtMm: 8 };
    const kept = await shown(settings);
    await aTimeout(500);
    const { geometries, textures } = heldResources();
    const listeners = countListeners([window, document]);
    for (let k = 0; k < 200; k++) {
      const el = document.createElement('bench-relief');
      el.style.setProperty('width', '80px');
      Object.assign(el, settings);
      document.body.prepend(el);
      while (el.cost.frames === 0) await nextFrame();
      el.remove();
    }
    expect(listeners.left()).to.equal(0);
    listeners.stop();
    expect(heldResources()).to.deep.equal({ contexts: 1, geometries, textures });
    expect(contextOfPage()!.isContextLost()).to.equal(false);
    kept.remove();
    expect(heldResources()).to.deep.equal({ contexts: 0, geometries: 0, textures: 0 });
  });

  it('gives way to the flat picture where there is no WebGL', async () => {
    const { getContext } = HTMLCanvasElement.prototype;
    const { error } = console;
    // What is stood in for: a browser that refuses the context, and the library's own complaint about it.
    HTMLCanvasElement.prototype.getContext = (() => null) as typeof getContext;
    console.error = () => undefined;
    try {
      const el = await fixture<Relief>(html`<bench-relief><p>flat map</p></bench-relief>`);
      await oneEvent(el, 'bench-relief-unavailable');
      await el.updateComplete;
      expect(el.shadowRoot!.querySelector('slot')!.assignedElements()).to.have.lengthOf(1);
      await expectAccessible(el);
    } finally {
      HTMLCanvasElement.prototype.getContext = getContext;
      console.error = error;
    }
  });
});
