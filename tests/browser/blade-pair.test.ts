import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/map/blade-pair.ts';
import type { BladeMap } from '../../components/map/blade-map.ts';
import type { BladePair } from '../../components/map/blade-pair.ts';
import type { KeyEntry } from '../../components/map/map-key.ts';
import { expectAccessible } from './accessible.ts';
import { inventedBlade } from './blades.ts';

const KEY: readonly KeyEntry[] = [
  { mark: 'from-tip', words: 'hangs from the tip' },
  { mark: 'more', words: 'taken off' },
  { mark: 'less', words: 'reads thicker' },
];

async function shown(widthPx = 640): Promise<BladePair> {
  const box = await fixture<HTMLElement>(
    html`<div>
      <bench-blade-pair
        caption="Bark side, tip up."
        label="Both blades, thinnest at the tip."
        .a=${inventedBlade('A')}
        .b=${inventedBlade('B')}
        .key=${KEY}
      ></bench-blade-pair>
    </div>`,
  );
  box.style.setProperty('width', `${widthPx}px`);
  const el = box.querySelector('bench-blade-pair')!;
  await el.updateComplete;
  return el;
}

const maps = (el: BladePair) =>
  [...el.shadowRoot!.querySelectorAll<BladeMap>('bench-blade-map')].filter(
    (map) => map.offsetParent !== null,
  );

describe('bench-blade-pair', () => {
  it('is accessible', async () => {
    await expectAccessible(await shown());
  });

  it('draws both blades at one scale, A on the left', async () => {
    const el = await shown();
    expect(maps(el).map((map) => map.data!.blade)).to.deep.equal(['A', 'B']);
    const [a, b] = maps(el).map((map) => map.getBoundingClientRect());
    expect(a!.width).to.be.closeTo(b!.width, 0.5);
    expect(a!.right).to.be.at.most(b!.left + 0.5);
  });

  it('goes to the facing place on the other blade with x', async () => {
    const el = await shown();
    await el.focusPlace({ blade: 'A', fromTipMm: 10, across: 0.8 });
    await sendKeys({ press: 'x' });
    await new Promise((resolve) => setTimeout(resolve));
    const b = maps(el)[1]!;
    expect(el.shadowRoot!.activeElement).to.equal(b);
    expect(b.shadowRoot!.activeElement!.getAttribute('aria-label')).to.match(
      /^10 mm from the tip, left.edge/,
    );
  });

  it('marks a probe on both blades, mirrored on the facing one', async () => {
    const el = await shown();
    el.probe = { blade: 'A', fromTipMm: 12, across: 0.5 };
    await el.updateComplete;
    expect(maps(el).map((map) => map.probe!.across)).to.deep.equal([0.5, -0.5]);
  });

  it('shows one blade and a switch where it is narrow', async () => {
    const el = await shown(360);
    expect(maps(el).map((map) => map.data!.blade)).to.deep.equal(['A']);
    el.shadowRoot!.querySelectorAll<HTMLButtonElement>('.choice button')[1]!.focus();
    await sendKeys({ press: 'Enter' });
    await el.updateComplete;
    expect(maps(el).map((map) => map.data!.blade)).to.deep.equal(['B']);
    await expectAccessible(el);
  });
});
