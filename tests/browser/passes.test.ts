import { expect } from 'chai';
import { fixture, html, oneEvent, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/passes/pass-film.ts';
import type { PassFilm } from '../../components/passes/pass-film.ts';
import '../../components/passes/small-multiples.ts';
import type { MultipleChooseEvent, SmallMultiples } from '../../components/passes/small-multiples.ts';
import '../../components/passes/spine-multiples.ts';
import type { Spine, SpineMultiples } from '../../components/passes/spine-multiples.ts';
import { expectAccessible } from './accessible.ts';
import { inventedBlade } from './blades.ts';

const items = ['0', '1', '2'].map((id) => ({
  id,
  title: `Pass ${id}`,
  notes: ['70.5 mm'],
  data: { ...inventedBlade('A'), bladeLengthMm: 24 - Number(id) * 0.4 },
}));

describe('bench-small-multiples', () => {
  const shown = () =>
    fixture<SmallMultiples>(
      html`<bench-small-multiples current="1" .items=${items}></bench-small-multiples>`,
    );

  it('is accessible', async () => {
    await expectAccessible(await shown());
  });

  it('draws all at one scale', async () => {
    const el = await shown();
    const maps = [...el.shadowRoot!.querySelectorAll('bench-blade-map')];
    expect(maps.map(({ lengthMm }) => lengthMm)).to.deep.equal([24, 24, 24]);
  });

  it('tells which one was chosen', async () => {
    const el = await shown();
    const chosen = oneEvent<MultipleChooseEvent>(el, 'bench-multiple-choose');
    el.shadowRoot!.querySelectorAll('button')[2]!.focus();
    await sendKeys({ press: 'Enter' });
    expect((await chosen).id).to.equal('2');
  });
});

describe('bench-pass-film', () => {
  const frames = items.map(({ title, data }) => ({ title, a: data, b: inventedBlade('B') }));
  const shown = () => fixture<PassFilm>(html`<bench-pass-film .frames=${frames}></bench-pass-film>`);
  const title = (el: PassFilm) => el.shadowRoot!.querySelector('output')!.textContent;

  it('is accessible, and says so when there is nothing to run', async () => {
    const el = await shown();
    await expectAccessible(el);
    el.frames = [];
    await el.updateComplete;
    expect(el.shadowRoot!.textContent).to.contain('One pass so far');
  });

  it('goes from pass to pass with the slider', async () => {
    const el = await shown();
    el.shadowRoot!.querySelector('input')!.focus();
    await sendKeys({ press: 'ArrowRight' });
    await el.updateComplete;
    expect(title(el)).to.equal('Pass 1');
  });

  it('runs once through and stops, or when it is taken off the page', async () => {
    const el = await shown();
    el.shadowRoot!.querySelector('button')!.focus();
    await sendKeys({ press: 'Enter' });
    const button = el.shadowRoot!.querySelector('button')!;
    await waitUntil(() => title(el) === 'Pass 2' && button.textContent === 'Run through', 'it stops there');
  });
});

describe('bench-spine-multiples', () => {
  const spine = (id: string, lastMm: number, slope: number): Spine => {
    const atMm = Array.from({ length: 11 }, (_, k) => (lastMm * k) / 10);
    return {
      id,
      title: `R-${id}`,
      note: 'pass 1',
      href: `#/bench/${id}`,
      atMm,
      thicknessMm: { A: atMm.map((y) => 0.1 + slope * y), B: atMm.map((y) => 0.12 + slope * y) },
    };
  };
  const shown = () =>
    fixture<SpineMultiples>(
      html`<bench-spine-multiples
        .spines=${[spine('1', 20, 0.02), spine('2', 10, 0.02)]}
      ></bench-spine-multiples>`,
    );

  it('is accessible', async () => {
    await expectAccessible(await shown());
  });

  it('draws all at one scale, A solid and B dashed', async () => {
    const el = await shown();
    const lines = [...el.shadowRoot!.querySelectorAll<SVGPathElement>('.line.A')].map((path) =>
      path.getBBox(),
    );
    // The second is half as long, and rises half as far.
    expect(lines[1]!.width / lines[0]!.width).to.be.closeTo(0.5, 0.01);
    expect(lines[1]!.height / lines[0]!.height).to.be.closeTo(0.5, 0.01);
    const dash = (blade: string) =>
      getComputedStyle(el.shadowRoot!.querySelector(`.line.${blade}`)!).strokeDasharray;
    expect([dash('A'), dash('B')]).to.deep.equal(['none', '6px, 3px']);
  });
});
