import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import '../../components/map/map-legend.ts';
import type { MapLegend } from '../../components/map/map-legend.ts';
import { ramp } from '../../components/theme/ramp.ts';
import { expectAccessible } from './accessible.ts';

const labels = (el: MapLegend) =>
  [...el.shadowRoot!.querySelectorAll('text:not(.end)')].map((text) => text.textContent);

describe('bench-map-legend', () => {
  it('is accessible', async () => {
    await expectAccessible(await fixture(html`<bench-map-legend></bench-map-legend>`));
  });

  it('has one step for each band of the ramp, from thin at the left to thick', async () => {
    const el = await fixture<MapLegend>(html`<bench-map-legend></bench-map-legend>`);
    const steps = [...el.shadowRoot!.querySelectorAll<SVGPathElement>('.bar path')];
    expect(steps).to.have.lengthOf(ramp('thickness', 'day').bands.length);
    const lefts = steps.map((step) => step.getBBox().x);
    expect(lefts).to.deep.equal([...lefts].sort((a, b) => a - b));
  });

  it('speaks the unit of the maker', async () => {
    const el = await fixture<MapLegend>(html`<bench-map-legend unit="mm"></bench-map-legend>`);
    expect(labels(el)).to.include('0.40');
    el.unit = 'thou';
    await el.updateComplete;
    expect(labels(el)).to.include('12.0');
  });

  it('says what its numbers are of, whatever it shows', async () => {
    const el = await fixture<MapLegend>(
      html`<bench-map-legend quantity="slope" unit="mm" decimal="comma"></bench-map-legend>`,
    );
    expect(labels(el)).to.deep.equal(['\u22120,040', '0,000', '0,040', '0,080', '0,120']);
    const picture = () => el.shadowRoot!.querySelector('svg')!.getAttribute('aria-label');
    expect(picture()).to.contain('mm a millimetre');
    Object.assign(el, { quantity: 'believable', unit: 'hundredths' });
    await el.updateComplete;
    expect(labels(el)).to.deep.equal(['0,0', '2,0', '4,0', '6,0']);
    expect(picture()).to.contain('smallest change to believe');
  });

  it('says in words what its ends stand for', async () => {
    const el = await fixture<MapLegend>(
      html`<bench-map-legend
        quantity="difference"
        .ends=${['reads thicker', 'taken off']}
      ></bench-map-legend>`,
    );
    const [low, high] = [...el.shadowRoot!.querySelectorAll<SVGTextElement>('.end')];
    expect([low!.textContent, high!.textContent]).to.deep.equal(['reads thicker', 'taken off']);
    expect(low!.getBBox().x + low!.getBBox().width).to.be.below(high!.getBBox().x);
  });

  it('shows the signs of a difference, and bare what is inside its doubt', async () => {
    const el = await fixture<MapLegend>(
      html`<bench-map-legend quantity="difference" doubt-mm="0.015"></bench-map-legend>`,
    );
    expect(labels(el)).to.deep.equal(['\u22128', '\u22124', '0', '+4', '+8']);
    expect(el.shadowRoot!.querySelectorAll('.bar rect')).to.have.lengthOf(4);
  });
});
