import { expect } from 'chai';
import { fixture, html, waitUntil } from '@open-wc/testing-helpers';
import '../../components/charts/whiskers.ts';
import type { Whiskers } from '../../components/charts/whiskers.ts';
import '../../components/figures-table/figures-table.ts';
import type { FiguresTable } from '../../components/figures-table/figures-table.ts';
import '../../components/gauge/check-chart.ts';
import type { CheckChart } from '../../components/gauge/check-chart.ts';
import type { TableRow } from '../../src/figures/figure.ts';
import type { Estimate } from '../../src/surface/reed-model.ts';
import '../../components/plan/plan-step.ts';
import type { PlanStep } from '../../components/plan/plan-step.ts';
import { sayStep } from '../../src/plan/say-step.ts';
import type { Step } from '../../src/plan/step.ts';
import { differenceFigure, thicknessFigure } from '../../src/words/format.ts';
import { expectAccessible } from './accessible.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
/** Of a normal distribution, 95 % lie within this many standard deviations: any table of it. */
const WITHIN_95 = 1.96;

describe('the doubt of a contrast, as it is drawn', () => {
  const shown = async ({ valueMm: value, uMm: u }: Estimate) => {
    const contrast = { of: 'K-1, pass 0', id: 'zone.heart.blade', quantity: 'difference', value, u } as const;
    const rows: readonly TableRow[] = [{ name: 'heart', title: 'Heart', figures: [contrast] }];
    const el = await fixture<Whiskers>(html`<bench-whiskers .rows=${rows}></bench-whiskers>`);
    const part = <T extends Element>(selector: string) =>
      el.shadowRoot!.querySelector<T>(`tbody ${selector}`)!;
    const ends = [...el.shadowRoot!.querySelectorAll('tfoot td:nth-child(2) .ends > span')];
    return {
      el,
      line: part<SVGPathElement>('.doubt').getBBox(),
      scale: part<SVGPathElement>('.end').getBBox(),
      dot: part<SVGCircleElement>('circle'),
      said: part('td .said').textContent,
      ends: ends.map(({ textContent }) => textContent),
    };
  };
  const sure = { valueMm: 0.015, uMm: 0.005 };

  it('is accessible', async () => expectAccessible((await shown(sure)).el));

  it('is a line of 1.96 standard uncertainties to each side of its dot, to the scale written under it', async () => {
    const { line, scale, dot, ends } = await shown(sure);
    // 1.5 + 0.98 hundredths: three is the least round reach that holds them.
    expect(ends).to.deep.equal(['\u22123', '+3']);
    const perMm = scale.width / 0.06;
    expect(line.width / perMm).to.be.closeTo(2 * WITHIN_95 * 0.005, 1e-4);
    const at = (x: number) => (x - scale.x) / perMm - 0.03;
    expect(at(dot.cx.baseVal.value)).to.be.closeTo(0.015, 1e-5);
    expect(at(line.x + line.width / 2)).to.be.closeTo(0.015, 1e-4);
  });

  it('stands on the other side of zero for what is less', async () => {
    const { dot, scale } = await shown({ ...sure, valueMm: -0.015 });
    expect(dot.cx.baseVal.value).to.be.below(scale.x + scale.width / 2);
  });

  it('has a filled dot where it is measurable, a hollow one where it is not, and says so', async () => {
    const fill = ({ el, dot }: Awaited<ReturnType<typeof shown>>) => {
      const { fill: filled, stroke } = getComputedStyle(dot);
      const probe = document.createElement('i');
      probe.style.color = 'var(--bench-paper)';
      el.shadowRoot!.append(probe);
      return { isHollow: filled === getComputedStyle(probe).color, isFilled: filled === stroke };
    };
    const measurable = await shown(sure);
    expect(fill(measurable)).to.deep.equal({ isHollow: false, isFilled: true });
    expect(measurable.said).to.equal('+1.5\u00a0±1.0');
    const doubtful = await shown({ valueMm: 0.005, uMm: 0.005 });
    expect(fill(doubtful)).to.deep.equal({ isHollow: true, isFilled: false });
    expect(doubtful.said).to.equal('(+0.5)\u00a0±1.0, not measurable');
  });
});

describe('a table of figures', () => {
  const shown = async () => {
    const cells = [
      differenceFigure({ valueMm: 0.02, uMm: 0.01 }, writing),
      differenceFigure({ valueMm: 0.019, uMm: 0.01 }, writing),
      differenceFigure({ valueMm: -0.019, uMm: 0.01 }, writing),
      thicknessFigure({ valueMm: 0.01, uMm: 0.01 }, writing),
      { none: 'not read' },
    ];
    const el = await fixture<FiguresTable>(
      html`<bench-figures-table
        caption="Hundredths"
        .heads=${['Zone', 'a', 'b', 'c', 'd', 'e']}
        .rows=${[{ title: 'Heart', cells }]}
      ></bench-figures-table>`,
    );
    return [...el.shadowRoot!.querySelectorAll('tbody td')];
  };

  it('has in brackets what is smaller than its 95 % doubt of 1.96, and nothing else', async () => {
    const texts = (await shown()).map(({ textContent }) => textContent.replace(/\s+/g, ' ').trim());
    expect(texts).to.deep.equal(['+2.0 ±2.0', '(+1.9) ±2.0', '(\u22121.9) ±2.0', '1.0 ±2.0', '–not read']);
  });

  it('is pale where it is in brackets', async () => {
    const isPale = (await shown()).slice(0, 3).map(({ children: [value, doubt] }) => {
      return getComputedStyle(value!).color === getComputedStyle(doubt!).color;
    });
    expect(isPale).to.deep.equal([false, true, true]);
  });
});

describe('zeros of the last checks', () => {
  it('stand above nought where they were above zero, each as far as it was, odd beyond the limit', async () => {
    const history = [0.01, -0.02, 0.04].map((zeroMm, k) => ({
      ...{ takenAt: `2026-03-0${k + 1}T10:00:00Z`, zeroMm, spanMoved: false },
    }));
    const el = await fixture<CheckChart>(
      html`<bench-check-chart .history=${history} .limitMm=${0.03} .today=${20515}></bench-check-chart>`,
    );
    const stops = () => [...el.shadowRoot!.querySelectorAll<SVGGElement>('.stop')];
    await waitUntil(() => stops().length === 3);
    const rise = stops().map((stop) => {
      const ring = stop.querySelector<SVGCircleElement>('.ring')!.cy.baseVal.value;
      const { y, height } = stop.querySelector<SVGPathElement>('.whisker')!.getBBox();
      return Math.abs(ring - y) < 1e-3 ? height : -height;
    });
    expect(rise[0]! / rise[2]!).to.be.closeTo(0.01 / 0.04, 1e-4);
    expect(rise[1]! / rise[2]!).to.be.closeTo(-0.02 / 0.04, 1e-4);
    expect(rise[2]).to.be.above(0);
    expect(stops().map((stop) => stop.querySelector('.odd') !== null)).to.deep.equal([false, false, true]);
    expect(stops()[1]!.getAttribute('aria-label')).to.contain('zero \u22122.0');
  });
});

describe('a step of a plan', () => {
  const step = {
    ...{ zone: 'blend', title: 'Blend', blades: ['A', 'B'], side: 'both', parts: [], stretch: [3.5, 5.6] },
    ...{ takeMm: 0.03, excess: { valueMm: 0.0612, uMm: 0.0051 }, effect: 0.2, stopAndRead: false },
  } as unknown as Step;
  const shown = async (unit: 'hundredths' | 'thou') => {
    const inHand = { name: undefined, known: undefined };
    const said = sayStep(step, 'K-117', inHand, { unit, decimal: 'point' });
    const el = await fixture<PlanStep>(html`<bench-plan-step .said=${said}></bench-plan-step>`);
    const take = el.shadowRoot!.querySelector('.take')!;
    return [
      take.querySelector('b')!.textContent,
      take.textContent.replace(/\s+/g, ' ').replace('\u2011', '-').trim(),
    ];
  };

  it('shows what to take, of how much, with its 95 % doubt', async () => {
    // 6.12 with 1.96 times 0.51: 1.0.
    expect(await shown('hundredths')).to.deep.equal([
      '3',
      'Take 3 of the 6.1 ±1.0 hundredths above K-117 there',
    ]);
    // In thousandths of 25.4 mm: 1.18, of 2.41 with 0.39.
    expect(await shown('thou')).to.deep.equal(['1.1', 'Take 1.1 of the 2.4 ±0.4 thou above K-117 there']);
  });
});
