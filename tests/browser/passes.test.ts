import { expect } from 'chai';
import { aTimeout, fixture, html, oneEvent } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/passes/pass-film.ts';
import type { PassFilm } from '../../components/passes/pass-film.ts';
import '../../components/passes/small-multiples.ts';
import type { MultipleChooseEvent, SmallMultiples } from '../../components/passes/small-multiples.ts';
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
    await aTimeout(2200);
    expect(title(el)).to.equal('Pass 2');
    expect(el.shadowRoot!.querySelector('button')!.textContent).to.equal('Run through');
  });
});
