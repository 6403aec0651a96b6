import type { Figure, TableRow } from '../../src/figures/figure.ts';
import { expect } from 'chai';
import { fixture, html, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/case/blend-scale.ts';
import '../../components/charts/opening.ts';
import type { Opening } from '../../components/charts/opening.ts';
import '../../components/charts/profile-chart.ts';
import type { ProfileChart } from '../../components/charts/profile-chart.ts';
import '../../components/charts/whiskers.ts';
import type { Whiskers } from '../../components/charts/whiskers.ts';
import type { ChartLine, OpeningData } from '../../components/charts/chart-data.ts';
import { expectAccessible } from './accessible.ts';

const at = Array.from({ length: 41 }, (_, k) => k / 2);
const lines: readonly ChartLine[] = [
  {
    name: 'A',
    look: 'A',
    at,
    thicknessMm: at.map((y) => 0.1 + 0.02 * y),
    uMm: at.map(() => 0.005),
    readings: [{ at: 10, thicknessMm: 0.3 }],
  },
  { name: 'B', look: 'B', at, thicknessMm: at.map((y) => (y < 5 ? NaN : 0.12 + 0.02 * y)) },
  { name: 'K-117', look: 'favourite', at, thicknessMm: at.map((y) => 0.09 + 0.02 * y) },
  { name: 'floor', look: 'floor', at, thicknessMm: at.map(() => 0.06) },
];
const parts = <T extends Element>(el: Element, selector: string) => [
  ...el.shadowRoot!.querySelectorAll<T>(selector),
];
const texts = (el: Element, selector: string) => parts(el, selector).map((part) => part.textContent?.trim());

it('ends a doubt that is wider than the scale of blends with the scale', async () => {
  const marks = [
    { label: 'sure', figure: { value: 4, u: 0.05 }, favourite: false, retired: false },
    { label: 'unsure', figure: { value: 4.3, u: 2 }, favourite: false, retired: false },
  ];
  const el = await fixture(html`<bench-blend-scale .marks=${marks}></bench-blend-scale>`);
  await waitUntil(() => parts(el, '.doubt').length === 2);
  const { left, right } = el.getBoundingClientRect();
  for (const doubt of parts(el, '.doubt').map((one) => one.getBoundingClientRect())) {
    expect(doubt.left).to.be.at.least(left);
    expect(doubt.right).to.be.at.most(right);
  }
});

describe('bench-profile-chart', () => {
  const shown = () =>
    fixture<ProfileChart>(
      html`<bench-profile-chart
        label="Thickness down the centre line of both blades"
        .lines=${lines}
        .crossings=${[{ at: 5, thicknessMm: 0.2, look: 'A' }]}
      ></bench-profile-chart>`,
    );

  it('is accessible, its table open too', async () => {
    const el = await shown();
    await expectAccessible(el);
    parts<HTMLElement>(el, 'summary')[0]!.focus();
    await sendKeys({ press: 'Enter' });
    await expectAccessible(el);
  });

  it('copies its table as plain cells in the maker’s decimal sign, doubts beside their figures', async () => {
    const el = await shown();
    el.decimal = 'comma';
    el.unit = 'mm';
    await el.updateComplete;
    parts<HTMLElement>(el, 'summary')[0]!.click();
    let copied = '';
    const clipboard = { writeText: (text: string) => Promise.resolve(void (copied = text)) };
    Object.defineProperty(navigator, 'clipboard', { configurable: true, value: clipboard });
    const copy = parts<HTMLElement>(el, 'bench-copy')[0]!.shadowRoot!;
    copy.querySelector('button')!.click();
    await waitUntil(() => copied !== '');
    Reflect.deleteProperty(navigator, 'clipboard');
    const [heads, ...rows] = copied.split('\n').map((row) => row.split('\t'));
    expect(heads!.slice(1)).to.deep.equal(['A', '±', 'B', 'K-117', 'floor']);
    // A is 0.1 mm at the tip and 0.02 mm more for each mm; its doubt is 1.96 times 0.005 mm. B begins at 5 mm.
    const five = rows.find(([place]) => place === '5,0' || place === '5')!;
    expect(five.slice(1)).to.deep.equal(['0,200', '0,010', '0,220', '0,190', '0,060']);
    expect(rows[0]![3], 'not read: blank').to.equal('');
    await waitUntil(() => copy.querySelector('[role=status]')!.textContent!.includes('Copied.'));
  });

  it('draws a line through what it was given, and stops where nothing was read', async () => {
    const el = await shown();
    const a = parts<SVGPathElement>(el, '[part=picture] .line.A')[0]!;
    const mark = parts<SVGCircleElement>(el, 'circle.reading.A')[0]!;
    const point = new DOMPoint(mark.cx.baseVal.value, mark.cy.baseVal.value);
    expect(a.isPointInStroke(point)).to.equal(true);
    const b = parts<SVGPathElement>(el, '[part=picture] .line.B')[0]!;
    // B begins at 5 mm of 20: a quarter of A's way.
    expect(b.getBBox().width / a.getBBox().width).to.be.closeTo(0.75, 0.005);
  });

  it('draws the doubt as 95 %', async () => {
    const el = await shown();
    const band = parts<SVGPathElement>(el, '.doubt.A')[0]!.getBBox();
    const line = parts<SVGPathElement>(el, '[part=picture] .line.A')[0]!.getBBox();
    const unitsPerMm = line.height / 0.4;
    // Paths are rounded to a thousandth of a unit.
    expect((band.height - line.height) / unitsPerMm).to.be.closeTo(2 * 1.96 * 0.005, 1e-4);
  });

  it('has every figure in its table, with the doubt or the reason that there is none', async () => {
    const el = await shown();
    const row = parts<HTMLTableRowElement>(el, 'tbody tr').find((tr) => tr.cells[0]!.textContent === '3')!;
    expect([...row.cells].map((cell) => cell.textContent)).to.deep.equal([
      '3',
      '16.0\u00a0±1.0',
      '–',
      '15.0',
      '6.0',
    ]);
  });

  it('writes a crossing at the foot, and tells lines apart by more than colour', async () => {
    const el = await shown();
    expect(texts(el, '.crossing text')).to.deep.equal(['5.0']);
    const dash = (look: string) =>
      getComputedStyle(parts(el, `[part=picture] .line.${look}`)[0]!).strokeDasharray;
    expect(dash('A')).to.equal('none');
    expect(dash('B')).to.equal('8px, 4px');
    expect(parts(el, '[part=picture] .line.core')).to.have.lengthOf(1);
    expect(parts(el, '[part=picture] .teeth')).to.have.lengthOf(1);
  });
});

describe('bench-whiskers', () => {
  const figure = (contrast: string, rest: Partial<Figure>): Figure => ({
    of: 'K-1, pass 0',
    id: `zone.corners.${contrast}`,
    quantity: 'difference',
    ...rest,
  });
  const rows: readonly TableRow[] = [
    {
      name: 'corners',
      title: 'Corners',
      figures: [
        figure('blade', { value: 0, u: 0.003 }),
        figure('hand', { value: -0.015, u: 0.0046 }),
        figure('side', { absent: 'only one blade is read' }),
      ],
    },
  ];
  const shown = () => fixture<Whiskers>(html`<bench-whiskers .rows=${rows}></bench-whiskers>`);

  it('is accessible', async () => {
    await expectAccessible(await shown());
  });

  it('has its figures in words, and says which are not measurable or not read', async () => {
    const [row] = parts<HTMLTableRowElement>(await shown(), 'tbody tr');
    const words = [...row!.cells].map((cell) => cell.textContent!.trim().replace(/\s+/g, ' '));
    expect(words).to.deep.equal(['Corners', '(0.0) ±0.6, not measurable', '−1.5 ±0.9', '–']);
  });

  it('fills the dot of what is measurable alone, left of the zero for a negative one', async () => {
    const [blade, hand] = parts<SVGCircleElement>(await shown(), 'circle');
    expect([blade, hand].map((dot) => dot!.classList.contains('sure'))).to.deep.equal([false, true]);
    expect(hand!.cx.baseVal.value).to.be.below(blade!.cx.baseVal.value);
  });
});

describe('bench-opening', () => {
  const across = [-1, -0.5, 0, 0.5, 1];
  const data: OpeningData = {
    cornersMm: { AL: 0.08, AR: 0.065, BL: 0.07, BR: 0.06 },
    facingMm: { side1: 0.02, side2: -0.005 },
    edges: {
      A: { across, thicknessMm: [0.08, 0.09, 0.12, 0.08, 0.065] },
      B: { across, thicknessMm: [0.07, 0.09, 0.12, 0.08, 0.06] },
    },
    widthMm: 7,
    openingMm: 1.1,
  };
  const shown = () => fixture<Opening>(html`<bench-opening .data=${data}></bench-opening>`);

  it('is accessible', async () => {
    await expectAccessible(await shown());
  });

  it("puts A up and side 1 at the left: A's left over B's right, A's right over B's left", async () => {
    const el = await shown();
    const stands = (corner: string) => {
      const text = parts<SVGTextElement>(el, `[data-corner=${corner}]`)[0]!;
      const box = text.getBoundingClientRect();
      const picture = parts(el, 'svg')[0]!.getBoundingClientRect();
      return [
        text.textContent,
        box.bottom < picture.top + picture.height / 2 ? 'up' : 'down',
        box.right < picture.left + picture.width / 2 ? 'left' : 'right',
      ];
    };
    expect(stands('AL')).to.deep.equal(['8.0', 'up', 'left']);
    expect(stands('AR')).to.deep.equal(['6.5', 'up', 'right']);
    expect(stands('BR')).to.deep.equal(['6.0', 'down', 'left']);
    expect(stands('BL')).to.deep.equal(['7.0', 'down', 'right']);
    const dot = parts(el, '.side-1')[0]!.getBoundingClientRect();
    expect(dot.right).to.be.below(parts(el, '.name')[0]!.getBoundingClientRect().left);
  });

  it('joins the corners that face each other with A less B', async () => {
    const el = await shown();
    expect(texts(el, '[data-facing=side1]')).to.deep.equal(['+2.0']);
    expect(texts(el, '[data-facing=side2]')).to.deep.equal(['−0.5']);
  });

  it("draws A's thick left corner at the left, and B's at the right", async () => {
    const el = await shown();
    const edge = (blade: string, x: number) => {
      const path = parts<SVGPathElement>(el, `[data-blade=${blade}]`)[0]!;
      const box = path.getBBox();
      const probe = x < 0 ? box.x + 0.5 : box.x + box.width - 0.5;
      let inside = 0;
      for (let y = box.y; y < box.y + box.height; y += 0.1)
        if (path.isPointInFill(new DOMPoint(probe, y))) inside++;
      return inside;
    };
    expect(edge('A', -1)).to.be.above(edge('A', 1));
    expect(edge('B', 1)).to.be.above(edge('B', -1));
  });
});
