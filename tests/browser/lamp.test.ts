import { expect } from 'chai';
import { fixture, html, oneEvent } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/lamp/lamp.ts';
import type { Lamp } from '../../components/lamp/lamp.ts';
import type { LampMatchEvent } from '../../components/lamp/lamp-match-event.ts';
import { expectAccessible } from './accessible.ts';
import { halfWidthMm, inventedBlade, inventedMm } from './blades.ts';

const reed = { A: inventedBlade('A'), B: inventedBlade('B') };

async function shown(): Promise<Lamp> {
  return fixture<Lamp>(html`<bench-lamp .reed=${reed} .earlier=${reed} attenuation-per-mm="2"></bench-lamp>`);
}

const canvases = (el: Lamp) => [...el.shadowRoot!.querySelectorAll('canvas')];

/** Light-linear share of a screen value. Source: IEC 61966-2-1. */
function linear(value: number): number {
  const c = value / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

describe('bench-lamp', () => {
  it('is accessible', async () => {
    await expectAccessible(await shown());
  });

  it('is as bright as the law of its attenuation says, both blades in series', async () => {
    const canvas = canvases(await shown())[1]!;
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
    for (const fromTipMm of [0.525, 4.025, 10.025, 18.025])
      for (const across of [-0.8, 0, 0.6]) {
        const column = Math.floor(canvas.width / 2 + across * halfWidthMm(fromTipMm) * 20 * 1.4);
        const row = Math.floor(fromTipMm * 20);
        const red = data[4 * (row * canvas.width + column)]!;
        // Rounding to the column and to 8 bits: under 1 % of the light.
        const expected = Math.exp(-2 * (inventedMm(fromTipMm, across) + inventedMm(fromTipMm, -across)));
        expect(linear(red) / expected).to.be.closeTo(1, 0.012);
      }
  });

  it('stands a pass before beside the one after, both at one scale of light', async () => {
    const thicker = (blade: 'A' | 'B') => inventedBlade(blade, (y, u) => inventedMm(y, u) + 0.05);
    const el = await fixture<Lamp>(
      html`<bench-lamp
        .reed=${reed}
        .earlier=${{ A: thicker('A'), B: thicker('B') }}
        attenuation-per-mm="2"
      ></bench-lamp>`,
    );
    const [before, after] = canvases(el);
    expect(before!.getBoundingClientRect().right).to.be.at.most(after!.getBoundingClientRect().left);
    const red = (canvas: HTMLCanvasElement) =>
      canvas.getContext('2d')!.getImageData(canvas.width / 2, 200, 1, 1).data[0]!;
    // A twentieth of a millimetre more on each blade: exp(-2 * 0.1) of the light; 8 bits of a screen value are under 1.2 %.
    expect(linear(red(before!)) / linear(red(after!)) / Math.exp(-0.2)).to.be.closeTo(1, 0.025);
  });

  it('looks through one blade alone when asked', async () => {
    const el = await shown();
    el.shadowRoot!.querySelectorAll<HTMLButtonElement>('button')[1]!.click();
    await el.updateComplete;
    const canvas = canvases(el)[1]!;
    const column = Math.floor(canvas.width / 2 + 0.6 * halfWidthMm(10.025) * 20 * 1.4);
    const red = canvas.getContext('2d')!.getImageData(column, Math.floor(10.025 * 20), 1, 1).data[0]!;
    expect(linear(red) / Math.exp(-2 * inventedMm(10.025, 0.6))).to.be.closeTo(1, 0.012);
  });

  it('stays clear where nothing was read', async () => {
    const canvas = canvases(await shown())[0]!;
    const pixel = canvas.getContext('2d')!.getImageData(canvas.width / 2, 20 * 22, 1, 1).data;
    expect(pixel[3]).to.equal(0);
  });

  it('says what light cannot show, and only of both blades', async () => {
    const el = await shown();
    expect(el.shadowRoot!.querySelector('p')!.textContent).to.contain('cannot be seen');
    el.shadowRoot!.querySelectorAll<HTMLButtonElement>('button')[1]!.focus();
    await sendKeys({ press: 'Enter' });
    await el.updateComplete;
    expect(el.shadowRoot!.querySelector('p')!.textContent).to.not.contain('cannot be seen');
  });

  it('tells its owner what was matched, and keeps its own until then', async () => {
    const el = await shown();
    const matched = oneEvent<LampMatchEvent>(el, 'bench-lamp-match');
    el.shadowRoot!.querySelector('input')!.focus();
    await sendKeys({ press: 'ArrowRight' });
    const { attenuationPerMm, settled } = await matched;
    expect(attenuationPerMm).to.be.closeTo(2.1, 1e-9);
    expect(settled).to.equal(false);
    expect(el.attenuationPerMm).to.equal(2);
  });

  it('says when the match has settled, so that it is kept once', async () => {
    const el = await shown();
    const heard: boolean[] = [];
    el.addEventListener('bench-lamp-match', ({ settled }) => heard.push(settled));
    el.shadowRoot!.querySelector('input')!.focus();
    await sendKeys({ press: 'ArrowRight' });
    expect(heard).to.deep.equal([false, true]);
  });
});
