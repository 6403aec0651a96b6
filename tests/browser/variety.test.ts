import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import '../../components/bench/beside.ts';
import '../../components/map/blade-map.ts';
import { bladeDrawing } from '../../components/map/blade-drawing.ts';
import type { BladeMap } from '../../components/map/blade-map.ts';
import { benchReed } from '../../src/answers/fitted-reed.ts';
import type { Followed } from '../../src/plan/make-target.ts';
import { expectAccessible } from './accessible.ts';
import { BLADE_LENGTH_MM, inventedBlade } from './blades.ts';
import { inventedBench } from './invented-bench.ts';
import { until } from './until.ts';

const drawing = bladeDrawing(inventedBlade('A'), BLADE_LENGTH_MM);
/** 4 hundredths over everywhere; within the own variety from 8 to 12 mm, left of the middle. */
const isVariety = (y: number, u: number) => y >= 8 && y <= 12 && u <= 0;

async function shown(): Promise<BladeMap> {
  const data = inventedBlade('A', () => 0.04);
  const { ysMm, us } = data;
  const variety = Array.from(ysMm).flatMap((y) => Array.from(us, (u) => (isVariety(y, u) ? 1 : 0)));
  const el = await fixture<BladeMap>(html`<bench-blade-map quantity="difference"></bench-blade-map>`);
  el.data = {
    ...data,
    ownVariety: variety,
    measurable: variety.map((yes) => 1 - yes),
    marks: [
      { fromTipMm: 10, across: -0.4, valueMm: 0.04, ownVariety: true },
      { fromTipMm: 10, across: 0.4, valueMm: 0.04 },
    ],
  };
  await el.updateComplete;
  return el;
}

const covers = (path: SVGGeometryElement, y: number, u: number) =>
  path.isPointInFill(new DOMPoint(drawing.x(y, u), drawing.y(y)));
/** The grid's places are half a millimetre and a tenth apart: a border lies within one step of the first place inside. */
const INSIDE = [
  [8.6, -0.3],
  [10, -0.8],
  [10, -0.15],
  [11.4, -0.5],
] as const;
const OUTSIDE = [
  [7.3, -0.5],
  [12.7, -0.5],
  [10, 0.15],
  [10, 0.8],
  [2, 0],
] as const;

describe('what lies within the own variety', () => {
  it('is drawn with uprights at its places and nowhere else', async () => {
    const el = await shown();
    const root = el.shadowRoot!;
    const uprights = root.querySelector<SVGPathElement>('path[fill="url(#variety)"]')!;
    for (const [y, u] of INSIDE) expect(covers(uprights, y, u), `${y} mm, ${u}`).to.equal(true);
    for (const [y, u] of OUTSIDE) expect(covers(uprights, y, u), `${y} mm, ${u}`).to.equal(false);
    const upright = getComputedStyle(root.querySelector('#variety .upright')!);
    expect(upright.stroke).to.match(/^rgb/);
    expect(parseFloat(upright.strokeWidth)).to.be.at.least(0.5);
  });

  it('has neither the colour nor the hatching of an excess there', async () => {
    const root = (await shown()).shadowRoot!;
    const clip = root.querySelector<SVGPathElement>('#measurable path')!;
    for (const [y, u] of INSIDE) expect(covers(clip, y, u), `${y} mm, ${u}`).to.equal(false);
    for (const [y, u] of OUTSIDE) expect(covers(clip, y, u), `${y} mm, ${u}`).to.equal(true);
    const clipped = root.querySelector('.bands')!;
    expect(clipped.getAttribute('clip-path')).to.equal('url(#measurable)');
    expect(clipped.querySelector('path[fill="url(#hatch)"]')).to.not.equal(null);
  });

  it('is said at its stations, and their numbers are smaller', async () => {
    const el = await shown();
    const cells = [...el.shadowRoot!.querySelectorAll('[role=gridcell]')];
    const [own, other] = [/left/, /right/].map((side) =>
      cells.find((cell) => side.test(cell.getAttribute('aria-label')!))!,
    ) as [Element, Element];
    expect(own.getAttribute('aria-label')).to.match(/within your own variety/);
    expect(other.getAttribute('aria-label')).to.not.match(/variety/);
    const size = (cell: Element) => Number(cell.querySelector('text')!.getAttribute('font-size'));
    expect(size(own)).to.be.below(size(other));
  });
});

describe('bench-beside with two favourites', () => {
  async function beside() {
    const { host, store, idOf } = await inventedBench();
    const reed = store.reed(idOf('K-117'))!;
    const [pass] = await store.loadPasses(reed.id);
    /** The invented reed, thicker everywhere by an amount. */
    const thicker = (id: string, byMm: number) => {
      const readings = pass!.readings.map((reading) => ({
        ...reading,
        thicknessMm: Math.max(0.01, reading.thicknessMm! + byMm),
      }));
      return benchReed({ ...reed, id }, [{ ...pass!, reedId: id, readings }]);
    };
    // Their mean is 0.03 mm over the reed, and they lie 0.06 mm to either side of it.
    const reeds = [thicker('thick', 0.09), thicker('thin', -0.03)];
    const benched = thicker('own', 0);
    const examples = reeds.map((one) => ({ reedId: one.reed.id, passIndex: 0 }));
    const followed: Followed = { name: 'two', recipe: { from: 'reeds', examples }, placing: 'tip', reeds };
    const el = document.createElement('bench-beside');
    Object.assign(el, { benched, pass: 0, followed });
    host.append(el);
    await until(() =>
      el.shadowRoot
        ?.querySelector('bench-reed-beside')
        ?.shadowRoot?.querySelector('bench-blade-pair')
        ?.shadowRoot?.querySelector('bench-map-key'),
    );
    return el;
  }

  let el: HTMLElement;
  before(async () => {
    el = await beside();
  });

  it('is accessible, and marks the variety in the maps, the key, the table and the profile', async () => {
    await expectAccessible(el);
    const root = el.shadowRoot!;
    const maps = root.querySelector('bench-reed-beside')!.shadowRoot!;
    const pair = maps.querySelector('bench-blade-pair')!.shadowRoot!;
    const key = pair.querySelector('bench-map-key')!.shadowRoot!;
    expect(key.textContent).to.match(/within your own variety/);
    const blades = [...pair.querySelectorAll('bench-blade-map')].map((map) => map.shadowRoot!);
    expect(blades.some((map) => map.querySelector('path[fill="url(#variety)"]'))).to.equal(true);
    const table = root.querySelector('.figures bench-figures-table')!.shadowRoot!;
    expect(table.textContent).to.match(/within your own variety/);
    const { band } = root.querySelector('bench-profile-chart')!;
    expect(band!.name).to.equal('your own variety');
    const width = Array.from(band!.highMm, (high, i) => high - band!.lowMm[i]!).filter(Number.isFinite);
    expect(Math.max(...width)).to.be.above(0.02);
  });
});
