import { expect } from 'chai';
import { converter, differenceEuclidean, wcagContrast, type Rgb } from 'culori';
import { aTimeout, fixture, html, nextFrame, oneEvent, waitUntil } from '@open-wc/testing-helpers';
import { executeServerCommand, sendKeys, sendMouse } from '@web/test-runner-commands';
import '../../components/relief/relief.ts';
import type { Relief } from '../../components/relief/relief.ts';
import type { ReliefBlade } from '../../components/relief/relief-data.ts';
import type { MapProbeEvent, MapStationOpenEvent } from '../../components/map/map-events.ts';
import { contextOfPage, heldResources } from '../../components/scene/shared-renderer.ts';
import { PALETTE, THEMES } from '../../components/theme/palette.ts';
import { chooseTheme } from '../../components/theme/theme-controller.ts';
import { bandOf, ramp } from '../../components/theme/ramp.ts';
import { reliefBlades } from '../../components/bench/relief-blades.ts';
import { thicknessPlate } from '../../components/bench/plate-data.ts';
import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { benchReed } from '../../src/answers/fitted-reed.ts';
import { seededRandom } from '../seeded-random.ts';
import type { Estimate } from '../../shared/estimate.ts';
import { pictureParts } from '../../components/picture/picture-parts.ts';
import { svgText } from '../../components/picture/picture-export.ts';
import '../../components/map/blade-map.ts';
import { bladeDrawing, side1Of } from '../../components/map/blade-drawing.ts';
import type { BladeMapData } from '../../components/map/map-data.ts';
import { emulateFeatures } from './emulate.ts';
import { expectAccessible } from './accessible.ts';
import { halfWidthMm, inventedBlade, inventedMm } from './blades.ts';

/** 40 in every run, more than the contexts that a browser lends a page; `npm run study:openings` takes 200. */
declare const OPENINGS: number;

const toLab = converter('lab');
const deltaE = differenceEuclidean('lab');
const rgbOf = ([r, g, b]: readonly number[]) => ({
  mode: 'rgb' as const,
  r: r! / 255,
  g: g! / 255,
  b: b! / 255,
});

/** A body without zones and figures. */
const bareOf = (blade: ReliefBlade): ReliefBlade => ({ ...blade, zones: [], marks: [] });

const bare = (blade: 'A' | 'B') => bareOf(inventedBlade(blade));

/** Everything that a blade can carry. */
function laden(blade: 'A' | 'B'): ReliefBlade {
  const data = inventedBlade(blade);
  const { valuesMm } = data;
  return {
    ...data,
    originalMm: Array.from(valuesMm, (value) => value + 0.1),
    floorMm: Array.from(valuesMm, (value) => value - 0.02),
  };
}

/** The same on every other line of the grid: cheap to draw. */
function small(name: 'A' | 'B'): ReliefBlade {
  const { ysMm, us, halfWidthMm, marks, ...rest } = laden(name);
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
    marks: marks.slice(0, 5),
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

/** A reader who wants no motion: views change at once. */
function withoutMotion(): () => void {
  const { matchMedia } = window;
  window.matchMedia = (query) =>
    query.includes('reduced-motion') ? ({ matches: true } as MediaQueryList) : matchMedia.call(window, query);
  return () => (window.matchMedia = matchMedia);
}

async function shown(settings: Partial<Relief>, { moves = false } = {}): Promise<Relief> {
  return firstDrawn(await fixture<Relief>(html`<bench-relief></bench-relief>`), settings, { moves });
}

async function firstDrawn(el: Relief, settings: Partial<Relief>, { moves = false, px = 300 }) {
  const restore = moves ? () => undefined : withoutMotion();
  // Small, so that several are in sight at once.
  Object.assign(el.style, { width: `${px}px`, height: `${px}px`, display: 'inline-block' });
  Object.assign(el, settings);
  await waitUntil(() => el.cost.frames > 0, 'a first frame');
  restore();
  if (moves) moving.add(el);
  return el;
}

/** Of this size four stand beside each other. */
const SMALL_PX = 190;

const across = (fromTipMm: number): Place[] =>
  [-0.3, 0, 0.3].flatMap((off) =>
    [-0.4, -0.3, -0.2, 0.2, 0.3, 0.4, 0.5].map((u) => ({
      blade: 'A',
      fromTipMm: fromTipMm + off,
      across: u,
    })),
  );

/** What each question prints between 8 and 12 mm from the tip, on a body and on the flat map. */
const PRINTS = (() => {
  const data = inventedBlade('A');
  const { ysMm, us, halfWidthMm: widths } = data;
  const grid = (value: (y: number) => number) =>
    Array.from(ysMm).flatMap((y) => Array.from(us, () => value(y)));
  const measurable = grid((y) => (y > 8 && y < 12 ? 1 : 0));
  const difference = { ysMm, us, halfWidthMm: widths, valuesMm: grid(() => 0.03), measurable };
  const flat: Partial<BladeMapData> = difference;
  const targetMm = Array.from(data.valuesMm, (value) => value - 0.03);
  const row = Array.from({ length: 17 }, (_, k) => k / 8 - 1);
  const outline = [
    ...row.map((u) => ({ fromTipMm: 8, across: u })),
    ...row.map((u) => ({ fromTipMm: 12, across: -u })),
  ];
  return {
    lifted: { print: { is: 'lifted', difference }, flat },
    bridges: { print: { is: 'bridges', difference }, flat },
    ghost: { print: { is: 'ghost', targetMm, difference }, flat },
    strokes: { print: { is: 'strokes', outlines: [outline] }, flat: { nextStrokes: [outline] } },
  } satisfies Record<string, { print: NonNullable<ReliefBlade['print']>; flat: Partial<BladeMapData> }>;
})();

/** Bodies and flat maps of all prints at once, in rows from the window's upper left. */
async function allPrints() {
  const printed = Object.entries(PRINTS).map(([name, { print, flat }]) => ({
    name,
    body: { blades: [{ ...bare('A'), print }], stance: 'opened' as const, evenLight: true },
    data: { ...bare('A'), ...flat },
  }));
  const rows = await fixture<HTMLElement>(
    html`<div>
      ${printed.map(() => html`<bench-relief></bench-relief>`)}
      ${printed.map(
        ({ name, data }) =>
          html`<bench-blade-map
            .data=${data}
            quantity=${name === 'strokes' ? 'thickness' : 'difference'}
          ></bench-blade-map>`,
      )}
    </div>`,
  );
  Object.assign(rows.style, { position: 'absolute', inset: '0 auto auto 0', width: `${4 * SMALL_PX}px` });
  const [bodies, maps] = [rows.querySelectorAll('bench-relief'), rows.querySelectorAll('bench-blade-map')];
  for (const el of maps) Object.assign(el.style, { width: `${SMALL_PX}px`, display: 'inline-block' });
  return Promise.all(
    printed.map(async ({ name, body, data }, k) => {
      const el = await firstDrawn(bodies[k]!, body, { px: SMALL_PX });
      el.look('above');
      await atRest(el);
      const drawing = bladeDrawing(data, data.bladeLengthMm, side1Of('A'));
      const { left, top, width } = maps[k]!.shadowRoot!.querySelector('svg')!.getBoundingClientRect();
      const on = (at: number) => (at * width) / drawing.width;
      const onMap = ({ fromTipMm, across: u }: Place): [number, number] => [
        left + on(drawing.x(fromTipMm, u)),
        top + on(drawing.y(fromTipMm)),
      ];
      return { name, onBody: (place: Place) => onPage(el, place), onMap };
    }),
  );
}

/** The colours of the page as it is shown now, by place, CSS pixels from its left and top. */
async function pageColours(): Promise<(at: readonly [number, number]) => Rgb> {
  const image = new Image();
  image.src = `data:image/png;base64,${await executeServerCommand('page-picture')}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  Object.assign(canvas, { width: image.width, height: image.height });
  const paper = canvas.getContext('2d')!;
  paper.drawImage(image, 0, 0);
  const { data } = paper.getImageData(0, 0, image.width, image.height);
  return ([left, top]) => {
    expect(left < image.width && top < image.height, 'in the window').to.equal(true);
    const first = 4 * (Math.floor(top) * image.width + Math.floor(left));
    return rgbOf(Array.from(data.slice(first, first + 3)));
  };
}

const canvasOf = (el: Relief) => el.shadowRoot!.querySelector('canvas')!;

function picture(el: Relief): ImageData {
  const canvas = el.snapshot()!;
  return canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
}

/** Where a place stands on the page, whole pixels. */
function onPage(el: Relief, place: Place): [number, number] {
  const { left, top } = canvasOf(el).getBoundingClientRect();
  const at = el.where(place)!;
  return [Math.round(left + at.left), Math.round(top + at.top)];
}

/** Reeds that are seen on their way from one view to the next. */
const moving = new WeakSet<Relief>();

/** Waits until the reed stands where it was turned to. */
async function atRest(el: Relief) {
  // A busy machine may not have drawn the first frame of a turn when it is looked at.
  for (let [frames, still] = [el.cost.frames, 0]; still < 3;) {
    await (moving.has(el) ? aTimeout(120) : nextFrame());
    still = frames === el.cost.frames ? still + 1 : 0;
    ({ frames } = el.cost);
  }
}

/** Colours of places in one picture, 0 to 255. */
function coloursAt(el: Relief, places: readonly Place[]): number[][] {
  const { data, width } = picture(el);
  const ratio = width / canvasOf(el).clientWidth;
  return places.map((place) => {
    const { left, top } = el.where(place)!;
    const first = 4 * (Math.floor(top * ratio) * width + Math.floor(left * ratio));
    return Array.from(data.slice(first, first + 3));
  });
}

const colourAt = (el: Relief, place: Place) => coloursAt(el, [place])[0]!;

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
    it(`shows places in their legend's band: all in an even light, within one in a raking one, ${theme}`, async () => {
      chooseTheme(document.documentElement, theme);
      const el = await shown({ blades: [bare('A')] });
      const scale = ramp('thickness', theme);
      const bands = scale.bands.map(({ colour }) => toLab(colour)!);
      const nearest = (rgb: readonly number[]) => {
        const [r, g, b] = rgb.map((channel) => channel / 255);
        const seen = toLab({ mode: 'rgb', r: r!, g: g!, b: b! });
        const away = bands.map((band) => Math.hypot(band.l - seen.l, band.a - seen.a, band.b - seen.b));
        return away.indexOf(Math.min(...away));
      };
      // Off the contour lines, each five hundredths, and off the border of a band: half a pixel is 0.001 mm here.
      const places = Array.from({ length: 560 }, (_, k): Place => ({
        blade: 'A',
        fromTipMm: 0.7 + 0.031 * k,
        across: -0.7 + 0.07 * (k % 21),
      })).filter(({ fromTipMm, across }) => {
        const thickness = inventedMm(fromTipMm, across);
        const toLine = Math.abs(thickness / 0.05 - Math.round(thickness / 0.05)) * 0.05;
        const toBorder = Math.abs(thickness / 0.02 - Math.round(thickness / 0.02)) * 0.02;
        return toLine > 0.006 && toBorder > 0.004;
      });
      expect(places.length).to.be.above(200);
      const off = async (light: Partial<Relief>) => {
        Object.assign(el, light);
        await el.updateComplete;
        return coloursAt(el, places).map((colour, k) => {
          const { fromTipMm, across } = places[k]!;
          return Math.abs(nearest(colour) - bandOf(scale, inventedMm(fromTipMm, across)));
        });
      };
      const even = await off({ evenLight: true });
      expect(Math.max(...even)).to.be.at.most(1);
      expect(even.filter((bands) => bands > 0).length).to.be.at.most(0.02 * places.length);
      for (const lightAngle of [0.5, 2.45, 4]) {
        const found = await off({ evenLight: false, lightAngle });
        const within = found.filter((bands) => bands <= 1).length;
        expect(within / found.length, `light at ${lightAngle}`).to.be.at.least(0.98);
      }
    });

  it('shows a dig of one hundredth and a wave of one hundredth at least three times as clearly as the flat map', async () => {
    /** Between two contours, 0.43 mm, but for a round dig on A, 1.5 mm wide, and waves along B, 2 mm long. */
    const dug = (y: number, u: number) => {
      const away = Math.hypot(y - 10, u * halfWidthMm(10));
      return 0.43 - (away < 0.75 ? 0.005 * (1 + Math.cos((Math.PI * away) / 0.75)) : 0);
    };
    const waved = (y: number) => 0.43 + 0.005 * Math.cos(Math.PI * y);
    const blades = [
      { ...inventedBlade('A', dug), zones: [], marks: [] },
      { ...inventedBlade('B', waved), zones: [], marks: [] },
    ];
    const el = await shown({ blades, factor: 4.5 });
    const lightness = (place: Place) => {
      const [r, g, b] = colourAt(el, place).map((channel) => channel / 255);
      return toLab({ mode: 'rgb', r: r!, g: g!, b: b! }).l;
    };
    const at = (blade: 'A' | 'B', fromTipMm: number): Place => ({ blade, fromTipMm, across: 0.05 });
    // A hundredth is half a band of the flat map: at most one step of its colours.
    const steps = ramp('thickness', 'day').bands.map(({ colour }) => toLab(colour)!.l);
    const k = bandOf(ramp('thickness', 'day'), 0.43);
    const flat = Math.max(...[k - 1, k].map((one) => Math.abs(steps[one]! - steps[one + 1]!)));
    const apart = (one: Place, other: Place) => Math.abs(lightness(one) - lightness(other));
    expect(apart(at('A', 10), at('A', 12)), 'the dig').to.be.above(3 * flat);
    expect(apart(at('B', 8), at('B', 9)), 'the wave').to.be.above(3 * flat);
  });

  it('shades what a fit can tell of a dig, and no curvature inside its doubt', async () => {
    // A is dug by nine hundredths, 2 mm wide, rows of readings a millimetre apart; B is as even as a gauge can tell.
    const random = seededRandom(20_261_130);
    const dug = (y: number, u: number) => 0.09 * Math.exp(-(0.8 * (y - 13) ** 2 + 8 * u ** 2));
    const readings = BLADES.flatMap((blade) =>
      Array.from({ length: 18 * 9 }, (_, k) => {
        const [fromTipMm, across] = [1 + Math.floor(k / 9), -0.8 + 0.2 * (k % 9)];
        const trueMm = inventedMm(fromTipMm, across) - (blade === 'A' ? dug(fromTipMm, across) : 0);
        const thicknessMm = Math.round(100 * (trueMm + 0.01 * (random() - 0.5))) / 100;
        return { blade, fromTipMm, across, thicknessMm, repeat: 0, flag: 'ok', role: 'station' };
      }),
    );
    const pass = { index: 0, overallLengthMm: 72, threadMm: 47, remedies: [], readings } as unknown as Pass;
    const reed = benchReed({ label: 'T-1', styleId: 'long-scrape' } as Reed, [pass]);
    const blades = reliefBlades(reed, 0, thicknessPlate(reed, 0), undefined).map(bareOf);
    const el = await shown({ blades });
    el.look('above');
    await atRest(el);
    const rows = Array.from({ length: 15 }, (_, k) => 2.5 + k);
    const on = (blade: Blade): Place[] =>
      rows.flatMap((fromTipMm) => [-0.4, 0.05, 0.4].map((across) => ({ blade, fromTipMm, across })));
    const dig: Place = { blade: 'A', fromTipMm: 13, across: 0.05 };
    const places = [dig, ...on('A').filter(({ fromTipMm: y }) => Math.abs(y - 13) > 4), ...on('B')];
    const told = coloursAt(el, places);
    el.blades = blades.map((blade) => ({
      ...blade,
      rippleDoubtMm: Array.from(blade.valuesMm, () => Infinity),
    }));
    await el.updateComplete;
    const [plain, ...others] = coloursAt(el, places);
    // A difference of 2.3 is just seen (Mahy, Van Eycken and Oosterlinck 1994; value from memory).
    expect(deltaE(rgbOf(told[0]!), rgbOf(plain!)), 'the dig').to.be.above(2.3);
    expect(told.slice(1)).to.deep.equal(others);
    // By the curvature alone, without its doubt, the even blade would look worked.
    el.blades = blades.map(({ rippleDoubtMm: _, ...blade }) => blade);
    await el.updateComplete;
    const rough = coloursAt(el, places).slice(1);
    expect(rough.filter((seen, k) => deltaE(rgbOf(seen), rgbOf(others[k]!)) > 1).length, 'noise').to.be.above(
      3,
    );
  });

  it('draws no line over a plateau that lies at the level of a contour', async () => {
    const level = (base: number): ReliefBlade => ({
      ...inventedBlade('A', (y) => base + 0.0004 * Math.max(0, y - 12)),
      zones: [],
      marks: [],
    });
    const el = await shown({ blades: [level(0.4)], evenLight: true });
    el.look('above');
    await atRest(el);
    const on = [3, 5, 7, 9].map((fromTipMm) => colourAt(el, { blade: 'A', fromTipMm, across: 0.2 }));
    el.blades = [level(0.405)];
    await el.updateComplete;
    await atRest(el);
    const between = [3, 5, 7, 9].map((fromTipMm) => colourAt(el, { blade: 'A', fromTipMm, across: 0.2 }));
    on.forEach((colour, k) =>
      colour.forEach((channel, c) => expect(channel).to.be.closeTo(between[k]![c]!, 12)),
    );
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

  it('draws two blades with everything on them in at most 60 calls', async () => {
    const el = await shown({ blades: [laden('A'), laden('B')], cutAtMm: 8 });
    expect(el.cost.drawCalls).to.be.within(10, 60);
  });

  it('turns by keys and by hand, and goes back to its first view by 0', async () => {
    const el = await shown({ blades: [bare('A')] });
    const edge: Place = { blade: 'A', fromTipMm: 10, across: 0.9 };
    const before = el.where(edge)!.left;
    canvasOf(el).focus();
    await sendKeys({ press: 'ArrowLeft' });
    await atRest(el);
    const turned = el.where(edge)!.left;
    expect(turned).not.to.be.closeTo(before, 1);
    const middle = onPage(el, { blade: 'A', fromTipMm: 12, across: 0 });
    await sendMouse({ type: 'move', position: middle });
    await sendMouse({ type: 'down' });
    await sendMouse({ type: 'move', position: [middle[0] + 60, middle[1]] });
    await sendMouse({ type: 'up' });
    await atRest(el);
    expect(el.where(edge)!.left).not.to.be.closeTo(turned, 1);
    await sendKeys({ press: '0' });
    await atRest(el);
    expect(el.where(edge)!.left).to.be.closeTo(before, 0.5);
  });

  it('leaves the wheel to the page, and comes nearer with Ctrl', async () => {
    const el = await shown({ blades: [bare('A')] });
    const apart = () =>
      el.where({ blade: 'A', fromTipMm: 18, across: 0 })!.top -
      el.where({ blade: 'A', fromTipMm: 2, across: 0 })!.top;
    const before = apart();
    const wheel = (ctrlKey: boolean) => {
      const event = new WheelEvent('wheel', { deltaY: -120, ctrlKey, cancelable: true, bubbles: true });
      canvasOf(el).dispatchEvent(event);
      return event.defaultPrevented;
    };
    expect(wheel(false)).to.equal(false);
    await atRest(el);
    expect(apart()).to.be.closeTo(before, 0.1);
    expect(wheel(true)).to.equal(true);
    await atRest(el);
    expect(apart()).to.be.above(before * 1.02);
  });

  it('keeps the datum in every stance and view, and says when left and right have changed places', async () => {
    const el = await shown({ blades: [bare('A'), bare('B')] });
    const x = (blade: 'A' | 'B', across: number) => el.where({ blade, fromTipMm: 1, across })!.left;
    const turned = () => el.shadowRoot!.querySelector('.turned');
    const side1 = () =>
      [...el.shadowRoot!.querySelectorAll<HTMLElement>('.side:not([hidden]) i')].map((words) => {
        const { left, width } = words.getBoundingClientRect();
        return left + width / 2 - el.getBoundingClientRect().left;
      });
    const edge = (blade: 'A' | 'B', across: number) => el.where({ blade, fromTipMm: 20, across })!.left;
    const opened = [x('A', -0.8), x('A', 0.8), x('B', -0.8), x('B', 0.8)];
    expect(side1()).to.have.lengthOf(2);
    expect(side1()[0], 'side 1 of A').to.be.below(edge('A', -1));
    expect(side1()[1], 'side 1 of B').to.be.above(edge('B', 1));
    expect(opened).to.deep.equal([...opened].sort((a, b) => a - b));
    el.stance = 'staple';
    await atRest(el);
    expect(x('A', -0.8), 'side 1 left on A').to.be.below(x('A', 0.8));
    expect(x('B', 0.8), 'side 1 left on B').to.be.below(x('B', -0.8));
    expect(side1(), 'one word for both dots').to.have.lengthOf(1);
    expect(side1()[0]).to.be.below(edge('A', -1));
    expect(turned()).to.equal(null);
    el.look('tip');
    await atRest(el);
    expect(x('A', -0.8), 'from the tip').to.be.above(x('A', 0.8));
    expect(turned()!.textContent).to.contain('Seen from the tip');
    el.look('cork');
    await atRest(el);
    expect(x('A', -0.8)).to.be.below(x('A', 0.8));
  });

  it('keeps every corner’s figure on its side in each view and in the picture that is saved', async () => {
    // Hundredths that tell the corner: A left 11, A right 12, B left 21, B right 22.
    const corner = (blade: 'A' | 'B', first: number): ReliefBlade => ({
      ...bare(blade),
      marks: [-0.8, 0.8].map((across, k) => ({ fromTipMm: 1.5, across, valueMm: (first + k) / 100 })),
    });
    const el = await shown({ blades: [corner('A', 11), corner('B', 21)], readings: true });
    el.style.setProperty('width', '480px');
    el.style.setProperty('height', '480px');
    const onScreen = () =>
      [...el.shadowRoot!.querySelectorAll<HTMLElement>('.reading:not([hidden]):not(.dot)')].map((label) => ({
        text: label.textContent.trim(),
        left: label.getBoundingClientRect().left,
      }));
    const inFile = () => {
      const text = svgText(pictureParts(el.shadowRoot!), { caption: '', date: '' });
      const file = new DOMParser().parseFromString(text, 'image/svg+xml');
      return [...file.querySelectorAll('text')].map((word) => ({
        text: word.textContent,
        left: Number(word.getAttribute('x')),
      }));
    };
    const fromTheLeft = (found: { text: string; left: number }[]) =>
      found
        .filter(({ text }) => /^[12][12]$/.test(text))
        .sort((one, other) => one.left - other.left)
        .map(({ text }) => text);
    const views = [
      ['opened', 'cork', ['11', '12', '21', '22']],
      ['opened', 'above', ['11', '12', '21', '22']],
      ['opened', 'tip', ['22', '21', '12', '11']],
      ['staple', 'above', ['11', '12']],
      ['staple', 'tip', ['12', '11']],
      // From below B shows with the tip down: its right edge lies under A's left.
      ['staple', 'below', ['22', '21']],
    ] as const;
    for (const [stance, view, order] of views) {
      el.stance = stance;
      await el.updateComplete;
      el.look(view);
      await atRest(el);
      const found = fromTheLeft(onScreen());
      // Figures without room are dots; those that stand are in their order.
      expect(found, `${stance}, ${view}`).to.deep.equal(order.filter((text) => found.includes(text)));
      expect(found.length).to.be.above(1);
      const saved = fromTheLeft(inFile()).filter((text) => found.includes(text));
      expect(saved, `${stance}, ${view}, saved`).to.deep.equal(found);
    }
    // On the staple the opening stands ahead of the tip: on the left side 1, where A's left meets B's right, A above.
    const corners = (first: number) =>
      [first, first + 1].map((value) => ({ valueMm: value / 100, uMm: 0.003 })) as [Estimate, Estimate];
    el.blades = [
      { ...bare('A'), corners: corners(11) },
      { ...bare('B'), corners: corners(21) },
    ];
    await el.updateComplete;
    el.look('cork');
    await atRest(el);
    const written = [...el.shadowRoot!.querySelectorAll<HTMLElement>('.corner:not([hidden])')];
    const [left, right] = [0, 2].map((from) =>
      written
        .map((label) => ({
          text: label.textContent.trim().replace('\u00a0', ' '),
          box: label.getBoundingClientRect(),
        }))
        .sort((one, other) => one.box.left - other.box.left)
        .slice(from, from + 2)
        .sort((one, other) => one.box.top - other.box.top)
        .map(({ text }) => text),
    );
    // 1.96 times 0.3 hundredths.
    expect(left).to.deep.equal(['11.0 ±0.6', '22.0 ±0.6']);
    expect(right).to.deep.equal(['12.0 ±0.6', '21.0 ±0.6']);
    for (const across of [-1, 1] as const) {
      const [ahead, tip] = [-5, 0].map((fromTipMm) => el.where({ blade: 'A', fromTipMm, across })!);
      expect(ahead!.top, 'ahead of the tip').to.be.below(tip!.top - 10);
    }
    el.stance = 'opened';
    await el.updateComplete;
    expect(el.shadowRoot!.querySelectorAll('.corner')).to.have.lengthOf(0);
  });

  it('writes readings level and apart, and drops those that turn away', async () => {
    const el = await shown({ blades: [laden('A')], readings: true });
    el.style.setProperty('height', '480px');
    await atRest(el);
    const boxes = () =>
      [...el.shadowRoot!.querySelectorAll<HTMLElement>('.labels .reading:not([hidden]):not(.dot) i')].map(
        (label) => label.getBoundingClientRect(),
      );
    const first = boxes();
    expect(first.length).to.be.above(8);
    first.forEach((one, k) =>
      first.slice(k + 1).forEach((other) => {
        const overlap =
          Math.min(one.right, other.right) - Math.max(one.left, other.left) > 2 &&
          Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 6;
        expect(overlap).to.equal(false);
      }),
    );
    el.look('below');
    await atRest(el);
    expect(boxes()).to.have.lengthOf(0);
  });

  it('marks a probed place and, on the other blade, what faces it', async () => {
    const el = await shown({ blades: [bare('A'), bare('B')] });
    el.look('above');
    await atRest(el);
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

  it('tells the place of the blade under the pointer', async () => {
    const el = await shown({ blades: [bare('A'), bare('B')], stance: 'staple' });
    const wished: Place = { blade: 'A', fromTipMm: 10, across: -0.4 };
    const probed = oneEvent<MapProbeEvent>(el, 'bench-map-probe');
    await sendMouse({ type: 'move', position: onPage(el, wished) });
    const { place } = await probed;
    expect(place!.blade).to.equal('A');
    // Pointer positions are whole pixels, about 0.15 mm here.
    expect(place!.fromTipMm).to.be.closeTo(10, 0.4);
    expect(place!.across).to.be.closeTo(-0.4, 0.1);
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

  it('shows the floor through the cane', async () => {
    const data = inventedBlade('A');
    const floorMm = Array.from(data.valuesMm, (value) => value - 0.1);
    const el = await shown({ blades: [bare('A')] });
    const before = picture(el);
    el.blades = [{ ...bare('A'), floorMm }];
    await el.updateComplete;
    const after = picture(el);
    const changed = before.data.filter((value, k) => Math.abs(value - after.data[k]!) > 8).length;
    expect(changed).to.be.above(300);
  });

  it('lifts what was taken off over the place that it left, only where it is measurable', async () => {
    const data = inventedBlade('A');
    const near = (y: number) => (y > 8 && y < 12 ? 1 : 0);
    const grid = (value: (y: number) => number) =>
      Array.from(data.ysMm).flatMap((y) => Array.from(data.us, () => value(y)));
    const difference = {
      ysMm: data.ysMm,
      us: data.us,
      halfWidthMm: data.halfWidthMm,
      valuesMm: grid(() => 0.03),
      measurable: grid(near),
    };
    const el = await shown({ blades: [bare('A')] });
    const inside = (): Place => ({ blade: 'A', fromTipMm: 10, across: 0.3 });
    const outside = (): Place => ({ blade: 'A', fromTipMm: 17, across: 0.3 });
    el.look('above');
    await atRest(el);
    const before = coloursAt(el, [inside(), outside()]);
    el.blades = [{ ...bare('A'), print: { is: 'lifted', difference } }];
    await el.updateComplete;
    await atRest(el);
    const after = coloursAt(el, [inside(), outside()]);
    // Orange: more red than blue by far; cane there is grey-green.
    expect(after[0]![0]! - after[0]![2]!).to.be.above(before[0]![0]! - before[0]![2]! + 40);
    after[1]!.forEach((channel, k) => expect(channel).to.be.closeTo(before[1]![k]!, 3));
  });

  it('lays what was taken off back on its place, and peels it off anew when something else was taken', async () => {
    const data = inventedBlade('A');
    const difference = {
      ...{ ysMm: data.ysMm, us: data.us, halfWidthMm: data.halfWidthMm },
      valuesMm: Array.from(data.valuesMm, () => 0.03),
      marks: [{ fromTipMm: 10, across: 0, valueMm: 0.03 }],
    };
    const el = await shown(
      {
        blades: [{ ...bare('A'), print: { is: 'lifted', difference } }],
        stance: 'opened',
      },
      { moves: true },
    );
    el.look('side 1');
    await atRest(el);
    const height = () => {
      const label = el.shadowRoot!.querySelector<HTMLElement>('.difference')!;
      return Number(/, ([\d.]+)px/.exec(label.style.transform)![1]);
    };
    const lifted = height();
    el.lift = 0;
    await el.updateComplete;
    await atRest(el);
    const laid = height();
    // 2.6 mm of the scene, seen from the side: the length of the reed, 23 mm, fills most of 300 px.
    expect(laid - lifted).to.be.within(10, 60);
    el.lift = 1;
    await el.updateComplete;
    await atRest(el);
    expect(height()).to.be.closeTo(lifted, 1);
    const heights: number[] = [];
    el.addEventListener('bench-relief-turn', () => heights.push(height()));
    el.blades = [{ ...bare('A'), print: { is: 'lifted', difference: { ...difference } } }];
    await el.updateComplete;
    await atRest(el);
    expect(heights[0]).to.be.closeTo(laid, 1);
    expect(heights.at(-1)).to.be.closeTo(lifted, 1);
  });

  it('writes under a plan what stands over the floor, and nothing where there is none', async () => {
    const blade = laden('A');
    const floorMm = Array.from(blade.floorMm!, (value, k) =>
      blade.ysMm[Math.floor(k / blade.us.length)]! > 12 ? NaN : value,
    );
    const at = (fromTipMm: number, moreMm: number) => ({
      fromTipMm,
      across: 0,
      valueMm: inventedMm(fromTipMm, 0) + moreMm,
    });
    const marks = [at(5.3, 0.01), at(5, 0), at(15, 0)];
    const outlines = [[3, 5].map((fromTipMm) => ({ fromTipMm, across: 0 }))];
    const el = await shown({ blades: [{ ...blade, marks, floorMm, print: { is: 'strokes', outlines } }] });
    const spares = [...el.shadowRoot!.querySelectorAll('.spare')];
    // The floor lies 0.02 mm under the surface. The least is written; what is beside it gives way to it.
    expect(spares.map(({ textContent }) => Number(textContent))).to.deep.equal([2, 3]);
    expect(spares.map(({ classList }) => classList.contains('dot'))).to.deep.equal([false, true]);
  });

  it('opens the reading under a double click or Enter, and nothing far from a station', async () => {
    const marks = [
      { fromTipMm: 5, across: -0.5, valueMm: 0.2 },
      { fromTipMm: 15, across: 0.5, valueMm: 0.5 },
    ];
    const el = await shown({ blades: [{ ...bare('A'), marks }] });
    el.look('above');
    await atRest(el);
    const opened: Place[] = [];
    el.addEventListener('bench-map-station-open', ({ place }: MapStationOpenEvent) => opened.push(place));
    const press = async (place: Place) => {
      const position = onPage(el, place);
      for (let k = 0; k < 2; k++) await sendMouse({ type: 'click', position });
      canvasOf(el).dispatchEvent(
        new MouseEvent('dblclick', {
          clientX: position[0],
          clientY: position[1],
        }),
      );
    };
    await press({ blade: 'A', fromTipMm: 5.2, across: -0.45 });
    expect(opened.at(-1)).to.deep.equal({ blade: 'A', fromTipMm: 5, across: -0.5 });
    const { length } = opened;
    await press({ blade: 'A', fromTipMm: 10, across: 0 });
    expect(opened).to.have.length(length);
    el.probe = { blade: 'A', fromTipMm: 15, across: 0.4 };
    await el.updateComplete;
    canvasOf(el).focus();
    await sendKeys({ press: 'Enter' });
    expect(opened.at(-1)).to.deep.equal({ blade: 'A', fromTipMm: 15, across: 0.5 });
  });

  for (const look of [...THEMES, 'forced colours'] as const)
    it(`prints each question on its own places alone, on the body and on the flat map, ${look}`, async () => {
      const theme = look === 'forced colours' ? 'day' : look;
      chooseTheme(document.documentElement, theme);
      if (look !== theme) await emulateFeatures({ 'forced-colors': 'active' });
      const scale = ramp('difference', theme);
      const ofMore = scale.bands[bandOf(scale, 0.03)]!.colour;
      const prints = await allPrints();
      const seen = await pageColours();
      await emulateFeatures({});
      // Four of seven places or more, for the sign of an excess is drawn in lines across it.
      const apart = (points: readonly [number, number][], colour: string) =>
        points.map((at) => deltaE(seen(at), colour)).sort((one, other) => one - other)[
          Math.floor((3 / 7) * points.length)
        ]!;
      for (const { name, onBody, onMap } of prints) {
        const colour = name === 'strokes' ? PALETTE[theme].strokes : ofMore;
        expect(apart(across(10).map(onBody), colour), `${name} inside`).to.be.below(14);
        expect(apart(across(17).map(onBody), colour), `${name} outside`).to.be.above(25);
        if (name === 'strokes') continue;
        expect(apart(across(10).map(onMap), colour), `${name} inside, flat`).to.be.below(14);
        expect(apart(across(17).map(onMap), colour), `${name} outside, flat`).to.be.above(25);
      }
      // On the flat map strokes are an outline, told from its own halo by 3 to 1 (WCAG 2.2, 1.4.11), whatever cane is there.
      const { onMap, onBody } = prints.at(-1)!;
      // On the body their edge is told by as much from the paint and from the cane beside it.
      const around = (fromTipMm: number) =>
        Array.from({ length: 13 }, (_, k) => fromTipMm + 0.05 * (k - 6))
          .flatMap((at) =>
            [-0.4, -0.2, 0, 0.2, 0.4].map((u) => seen(onBody({ blade: 'A', fromTipMm: at, across: u }))),
          )
          .sort((one, other) => wcagContrast(one, 'black') - wcagContrast(other, 'black'));
      const middle = (colours: readonly Rgb[]) => colours[Math.floor(colours.length / 2)]!;
      const [cane, edge, paint] = [middle(around(7)), around(8)[0]!, middle(around(10))];
      expect(wcagContrast(edge, cane), 'edge and cane').to.be.above(3);
      expect(wcagContrast(edge, paint), 'edge and paint').to.be.above(3);
      const ends = Array.from({ length: 33 }, (_, k) =>
        seen(onMap({ blade: 'A', fromTipMm: 7.2 + 0.05 * k, across: 0.25 })),
      );
      const contrasts = ends.flatMap((one) => ends.map((other) => wcagContrast(one, other)));
      expect(Math.max(...contrasts), 'strokes, flat').to.be.above(3);
    });

  it('paints the strokes inside their outline and nowhere else', async () => {
    const el = await shown({ blades: [bare('A')] });
    el.look('above');
    await atRest(el);
    const places: Place[] = [4, 7].map((fromTipMm) => ({ blade: 'A', fromTipMm, across: 0.1 }));
    const outlines = [
      [
        [3, -0.5],
        [3, 0.5],
        [5, 0.5],
        [5, -0.5],
      ].map(([fromTipMm, across]) => ({ fromTipMm: fromTipMm!, across: across! })),
    ];
    el.blades = [{ ...bare('A'), print: { is: 'strokes', outlines } }];
    await el.updateComplete;
    await atRest(el);
    const [inside, outside] = coloursAt(el, places);
    const warmth = ([red, , blue]: readonly number[]) => red! - blue!;
    expect(warmth(inside!)).to.be.above(60);
    expect(warmth(outside!)).to.be.below(40);
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

  it(`leaves no context, geometry, texture or listener behind after ${OPENINGS} times on the page`, async () => {
    // One of the same stays, so that programs of the graphics card are made once.
    const settings = { blades: [small('A'), small('B')], cutAtMm: 8 };
    const kept = await shown(settings);
    await aTimeout(500);
    const { geometries, textures } = heldResources();
    const listeners = countListeners([window, document]);
    for (let k = 0; k < OPENINGS; k++) {
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
