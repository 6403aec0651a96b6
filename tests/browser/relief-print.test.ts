import { expect } from 'chai';
import { fixture, html, waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import { lampBlades } from '../../components/bench/relief-blades.ts';
import type { Relief } from '../../components/relief/relief.ts';
import type { ReliefBlade } from '../../components/relief/relief-data.ts';
import '../../components/relief/relief-print.ts';
import type { ReliefPrint } from '../../components/relief/relief-print.ts';
import { expectAccessible } from './accessible.ts';
import { inventedBlade } from './blades.ts';

const blades: readonly ReliefBlade[] = (['A', 'B'] as const).map((name) => {
  const blade = inventedBlade(name);
  return { ...blade, floorMm: Array.from(blade.valuesMm, (value) => value - 0.05) };
});

async function shown(settings: Partial<ReliefPrint> = {}): Promise<ReliefPrint> {
  const el = await fixture<ReliefPrint>(html`<bench-relief-print></bench-relief-print>`);
  Object.assign(el, { blades, ...settings });
  await el.updateComplete;
  await waitUntil(() => main(el).cost.frames > 0, 'a first frame');
  return el;
}
const main = (el: ReliefPrint) => el.shadowRoot!.querySelector<Relief>('bench-relief')!;
const button = (el: ReliefPrint, words: string) =>
  [...el.shadowRoot!.querySelectorAll('button')].find(({ textContent }) => textContent.includes(words))!;

describe('bench-relief-print', () => {
  it('is accessible, with targets large enough for a thumb', async () => {
    const el = await shown({ lamp: lampBlades(blades, 3) });
    await expectAccessible(el);
    button(el, 'More').click();
    await el.updateComplete;
    await expectAccessible(el);
    for (const one of el.shadowRoot!.querySelectorAll('button'))
      expect(one.getBoundingClientRect().height).to.be.at.least(44);
  });

  it('says from where the reed is seen, what is enlarged and what is assumed', async () => {
    const el = await shown();
    const said = () => el.shadowRoot!.querySelector('.head p')!.textContent;
    expect(said()).to.contain('A left, B right').and.to.contain('Thickness × 4.5');
    expect(said()).to.contain('usual opening and gouge assumed');
    el.stance = 'staple';
    el.blades = blades.map((blade) => ({ ...blade, arch: { openingMm: 1, gougeRadiusMm: 4.8 } }));
    await el.updateComplete;
    expect(said()).to.contain('A above, side 1 left').and.not.to.contain('assumed');
  });

  it('shows the floor, a cut and an even light when they are asked for', async () => {
    const el = await shown();
    expect(main(el).blades.some(({ floorMm }) => floorMm)).to.equal(false);
    for (const words of ['More', 'Floor', 'Cut across', 'Even light']) button(el, words).click();
    await el.updateComplete;
    expect(main(el).blades.every(({ floorMm }) => floorMm)).to.equal(true);
    expect(main(el).cutAtMm).to.equal(10);
    expect(main(el).evenLight).to.equal(true);
  });

  it('leads a line from what is said to the picked place, and none to a place that is turned away', async () => {
    const el = await shown({
      probe: { blade: 'A', fromTipMm: 10, across: 0 },
      probeText: 'A’s heart, 41 ±1',
    });
    const leader = el.shadowRoot!.querySelector('bench-relief-leader')!;
    const line = () => leader.shadowRoot!.querySelector('.line');
    await waitUntil(line, 'a line');
    const to = () => (line() as SVGPathElement).getPointAtLength(1e6);
    const place = () => main(el).where(el.probe!)!;
    expect(Math.hypot(to().x - place().left, to().y - place().top)).to.be.closeTo(9, 0.5);
    const words = leader.shadowRoot!.querySelector('p')!;
    expect(words.textContent).to.equal('A’s heart, 41 ±1');
    expect(words.offsetLeft + words.offsetWidth, 'beside the place').to.be.below(place().left);
    main(el).look('below');
    await waitUntil(() => !line(), 'no line');
  });

  it('turns the light by keys', async () => {
    const el = await shown();
    button(el, 'More').click();
    await el.updateComplete;
    const before = main(el).lightAngle;
    el.shadowRoot!.querySelector('bench-light-dial')!.shadowRoot!.querySelector('svg')!.focus();
    await sendKeys({ press: 'ArrowRight' });
    await el.updateComplete;
    expect(main(el).lightAngle).to.be.closeTo(before - Math.PI / 12, 1e-9);
  });

  it('turns the lamp along with the reed', async () => {
    const el = await shown({ lamp: lampBlades(blades, 3), stance: 'staple' });
    const twin = el.shadowRoot!.querySelector<Relief>('.lamp bench-relief')!;
    twin.scrollIntoView();
    await waitUntil(() => twin.cost.frames > 0, 'the twin');
    const edge = { blade: 'A', fromTipMm: 10, across: -0.9 } as const;
    const isLeftOfOther = () => twin.where(edge)!.left < twin.where({ ...edge, across: 0.9 })!.left;
    expect(isLeftOfOther()).to.equal(true);
    main(el).look('tip');
    await waitUntil(() => !isLeftOfOther(), 'the twin from the tip');
  });
});
