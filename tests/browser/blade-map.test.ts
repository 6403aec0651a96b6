import { expect } from 'chai';
import { fixture, html, oneEvent } from '@open-wc/testing-helpers';
import { sendKeys, sendMouse } from '@web/test-runner-commands';
import '../../components/map/blade-map.ts';
import type { BladeMap } from '../../components/map/blade-map.ts';
import type {
  MapLineMoveEvent,
  MapProbeEvent,
  MapStationOpenEvent,
  MapFacingEvent,
} from '../../components/map/map-events.ts';
import { bladeDrawing } from '../../components/map/blade-drawing.ts';
import { bandOf, ramp } from '../../components/theme/ramp.ts';
import { expectAccessible } from './accessible.ts';
import { BLADE_LENGTH_MM, inventedBlade, inventedMm } from './blades.ts';

const WIDTH_PX = 300;
const drawing = bladeDrawing(inventedBlade('A'), BLADE_LENGTH_MM);

async function shown(settings: Partial<BladeMap> = {}): Promise<BladeMap> {
  const box = await fixture<HTMLElement>(html`<div><bench-blade-map></bench-blade-map></div>`);
  box.style.setProperty('width', `${WIDTH_PX}px`);
  const el = box.querySelector('bench-blade-map')!;
  Object.assign(el, { data: inventedBlade('A'), ...settings });
  await el.updateComplete;
  return el;
}

const all = <T extends Element>(el: BladeMap, selector: string) => [
  ...el.shadowRoot!.querySelectorAll<T>(selector),
];
const focused = (el: BladeMap) => el.shadowRoot!.activeElement?.getAttribute('aria-label') ?? '';

/** Where a place of the blade stands on the page, CSS pixels. */
function onPage(el: BladeMap, fromTipMm: number, across: number): [number, number] {
  const box = el.shadowRoot!.querySelector('svg')!.getBoundingClientRect();
  const scale = box.width / drawing.width;
  return [
    Math.round(box.left + drawing.x(fromTipMm, across) * scale),
    Math.round(box.top + drawing.y(fromTipMm) * scale),
  ];
}

describe('bench-blade-map', () => {
  it('is accessible', async () => {
    await expectAccessible(await shown({ label: 'Thickness of blade A, thinnest at the tip.' }));
  });

  it('fills every place with the colour that the legend gives its thickness', async () => {
    const el = await shown();
    const bands = all<SVGPathElement>(el, '.bands path[fill^="var"]');
    const scale = ramp('thickness', 'day');
    for (const fromTipMm of [0.3, 2.2, 7.7, 13.1, 19.4])
      for (const across of [-0.95, -0.31, 0.02, 0.77]) {
        const point = new DOMPoint(drawing.x(fromTipMm, across), drawing.y(fromTipMm));
        const top = bands.filter((band) => band.isPointInFill(point)).at(-1)!;
        const { colour } = scale.bands[bandOf(scale, inventedMm(fromTipMm, across))]!;
        const expected = document.createElement('canvas').getContext('2d')!;
        expected.fillStyle = colour;
        const found = document.createElement('canvas').getContext('2d')!;
        const fill = getComputedStyle(top).fill;
        found.fillStyle = fill;
        expect(found.fillStyle, `${fromTipMm} mm, ${across}`).to.equal(expected.fillStyle);
      }
  });

  it('leaves bare, and dotted, what was not read', async () => {
    const el = await shown();
    const point = new DOMPoint(drawing.centre, drawing.y(22));
    const filled = all<SVGPathElement>(el, '.bands path[fill^="var"]').filter((band) =>
      band.isPointInFill(point),
    );
    expect(filled).to.have.lengthOf(0);
    expect(all<SVGPathElement>(el, '.wood > path[fill="url(#dots)"]')[0]!.isPointInFill(point)).to.equal(
      true,
    );
  });

  it('textures what lies beyond the outermost readings, as far as it is drawn', async () => {
    const reach = [
      { fromTipMm: 0.5, across: -0.8 },
      { fromTipMm: 20, across: -0.8 },
      { fromTipMm: 20, across: 0.8 },
      { fromTipMm: 0.5, across: 0.8 },
    ];
    const el = await shown({ data: { ...inventedBlade('A'), reach } });
    const [texture] = all<SVGPathElement>(el, '.beyond');
    const isTextured = (fromTipMm: number, across: number) =>
      texture!.isPointInFill(new DOMPoint(drawing.x(fromTipMm, across), drawing.y(fromTipMm)));
    expect(isTextured(0.3, 0.1)).to.equal(true);
    for (const fromTipMm of [1, 7.3, 12, 19.6]) {
      expect(isTextured(fromTipMm, 0.82), `${fromTipMm} mm`).to.equal(true);
      expect(isTextured(fromTipMm, -0.82)).to.equal(true);
      expect(isTextured(fromTipMm, 0.78)).to.equal(false);
      expect(isTextured(fromTipMm, 0)).to.equal(false);
    }
    const [drawn] = all<SVGPathElement>(el, '#field path');
    expect(drawn!.isPointInFill(new DOMPoint(drawing.centre, drawing.y(22)))).to.equal(false);
    expect(texture!.closest('[clip-path="url(#field)"]')).to.not.equal(null);
    el.data = inventedBlade('A');
    await el.updateComplete;
    expect(all(el, '.beyond')).to.have.lengthOf(0);
  });

  it('prints each reading at its station in the unit of the maker', async () => {
    const el = await shown({ unit: 'mm' });
    const texts = all(el, '[role="gridcell"] text').map((text) => text.textContent);
    expect(texts.slice(-3)).to.deep.equal(['0.456', '0.48', '0.504']);
  });

  it('has each station heard once: by its name, which its number is a part of', async () => {
    const el = await shown();
    const cells = all(el, '[role="gridcell"]');
    const names = cells.map((cell) => cell.getAttribute('aria-label'));
    expect(new Set(names).size).to.equal(names.length);
    for (const cell of cells)
      expect(cell.querySelector('text')!.getAttribute('aria-hidden')).to.equal('true');
  });

  it('parts rows that are closer than a figure is high, and leaves the others where they are', async () => {
    const el = await shown();
    const ys = all(el, '[role="row"]').map((row) => Number(row.querySelector('text')!.getAttribute('y')));
    expect(ys[1]! - ys[0]!).to.be.at.least(13.5);
    expect(Math.abs(ys[1]! - drawing.y(1))).to.be.below(0.2 * 22);
    expect(ys[3]).to.be.closeTo(drawing.y(10), 1e-9);
  });

  it('is one tab stop; arrows walk the stations and stay on the blade', async () => {
    const el = await shown();
    await sendKeys({ press: 'Tab' });
    expect(focused(el)).to.match(/^0.5 mm from the tip, left.edge: 6.6 hundredths/);
    await sendKeys({ press: 'ArrowLeft' });
    await sendKeys({ press: 'ArrowUp' });
    expect(focused(el)).to.match(/^0.5 mm from the tip, left.edge/);
    await sendKeys({ press: 'ArrowDown' });
    await sendKeys({ press: 'ArrowRight' });
    expect(focused(el)).to.match(/^1 mm from the tip, middle/);
    await sendKeys({ press: 'PageDown' });
    await sendKeys({ press: 'End' });
    expect(focused(el)).to.match(/^20 mm from the tip, right.edge/);
    await sendKeys({ press: 'Tab' });
    expect(focused(el)).to.equal('');
  });

  it('tells where the keyboard rests, and what Enter and x ask for', async () => {
    const el = await shown();
    await el.focusPlace({ fromTipMm: 9.8, across: 0.7 });
    const opened = oneEvent<MapStationOpenEvent>(el, 'bench-map-station-open');
    await sendKeys({ press: 'Enter' });
    expect((await opened).place).to.deep.equal({ blade: 'A', fromTipMm: 10, across: 0.8 });
    const faced = oneEvent<MapFacingEvent>(el, 'bench-map-facing');
    await sendKeys({ press: 'x' });
    expect((await faced).place).to.deep.equal({ blade: 'B', fromTipMm: 10, across: -0.8 });
    const probed = oneEvent<MapProbeEvent>(el, 'bench-map-probe');
    await sendKeys({ press: 'ArrowLeft' });
    await probed;
  });

  it('tells the place under the pointer, and opens the station that is clicked', async () => {
    const el = await shown();
    const places: MapProbeEvent[] = [];
    el.addEventListener('bench-map-probe', (event) => places.push(event));
    await sendMouse({ type: 'move', position: onPage(el, 7, 0.5) });
    const { place } = places.at(-1)!;
    // The pointer stands on whole pixels: 1 px is 0.046 mm along, 0.01 across.
    expect(place!.fromTipMm).to.be.closeTo(7, 0.03);
    expect(place!.across).to.be.closeTo(0.5, 0.01);
    const opened = oneEvent<MapStationOpenEvent>(el, 'bench-map-station-open');
    await sendMouse({ type: 'click', position: onPage(el, 10, 0) });
    expect((await opened).place).to.deep.equal({ blade: 'A', fromTipMm: 10, across: 0 });
    await sendMouse({ type: 'move', position: [800, 10] });
    expect(places.at(-1)!.place).to.equal(undefined);
  });

  it('says in words why a reading is marked, and marks it with a lozenge', async () => {
    const data = inventedBlade('B');
    const [first, ...rest] = data.marks;
    const el = await shown({
      data: { ...data, marks: [{ ...first!, odd: '40 to 45 was expected' }, ...rest] },
    });
    const [cell] = all(el, '#station-0');
    expect(cell!.getAttribute('aria-label')).to.contain('40 to 45 was expected');
    expect(cell!.querySelectorAll('.lozenge')).to.have.lengthOf(1);
  });

  it("puts the dot of side 1 at A's left and at B's right", async () => {
    const dotX = (el: BladeMap) => Number(all(el, '.side-1')[0]!.getAttribute('cx'));
    expect(dotX(await shown())).to.be.below(drawing.centre);
    expect(dotX(await shown({ data: inventedBlade('B') }))).to.be.above(drawing.centre);
  });

  it('carries the sign of a difference by texture', async () => {
    const el = await shown({
      quantity: 'difference',
      data: inventedBlade('A', (_, across) => 0.05 * across),
    });
    const region = (pattern: string) => all<SVGPathElement>(el, `.bands path[fill="url(#${pattern})"]`)[0]!;
    const right = new DOMPoint(drawing.x(10, 0.7), drawing.y(10));
    const left = new DOMPoint(drawing.x(10, -0.7), drawing.y(10));
    expect(region('hatch').isPointInFill(right)).to.equal(true);
    expect(region('rings').isPointInFill(left)).to.equal(true);
    expect(region('hatch').isPointInFill(left)).to.equal(false);
    expect(all(el, 'text').map((text) => text.textContent)).to.include('\u22124');
  });

  it('shows contours and numbers alone when asked', async () => {
    const el = await shown({ numbersOnly: true });
    expect(all(el, '.bands path[fill^="var"]')).to.have.lengthOf(0);
    expect(all(el, '.contour')).to.not.have.lengthOf(0);
  });

  it('moves the line of a profile by keys and by hand, on request of its owner only', async () => {
    const el = await shown({ line: { kind: 'across', fromTipMm: 10 } });
    const lines: MapLineMoveEvent[] = [];
    el.addEventListener('bench-map-line-move', (event) => lines.push(event));
    all<SVGElement>(el, '[role="slider"]')[0]!.focus();
    await sendKeys({ press: 'ArrowDown' });
    expect(lines.at(-1)!.line).to.deep.equal({ kind: 'across', fromTipMm: 10.25 });
    expect(el.line).to.deep.equal({ kind: 'across', fromTipMm: 10 });
    const [x, y] = onPage(el, 10, 1);
    const [, below] = onPage(el, 14, 1);
    await sendMouse({ type: 'move', position: [x + 9, y] });
    await sendMouse({ type: 'down' });
    await sendMouse({ type: 'move', position: [x + 9, below] });
    await sendMouse({ type: 'up' });
    expect(lines.at(-1)!.line).to.deep.equal({ kind: 'across', fromTipMm: 14 });
  });
});
