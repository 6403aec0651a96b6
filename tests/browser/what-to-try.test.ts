import { expect } from 'chai';
import '../../components/plan/what-to-try.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { makeTarget } from '../../src/plan/make-target.ts';
import { expectAccessible } from './accessible.ts';
import { inventedBench } from './invented-bench.ts';
import { until } from './until.ts';

async function opened() {
  const { host, fit } = await inventedBench();
  const { benched, followed } = await fit('M-142');
  const el = document.createElement('bench-what-to-try');
  const own = { benched, pass: benched.passes.length - 1 };
  Object.assign(el, { ...own, target: makeTarget(followed!, own, mapGrid(23, 51, 31)) });
  host.append(el);
  await until(() => el.shadowRoot?.querySelector('summary'));
  el.shadowRoot!.querySelector('summary')!.click();
  await until(() => el.shadowRoot!.querySelector('option'));
  return { el, root: el.shadowRoot! };
}

function hear(root: ShadowRoot, symptom: string) {
  const select = root.querySelector('select')!;
  select.value = [...select.options].find(({ text }) => text === symptom)!.value;
  select.dispatchEvent(new Event('change'));
}

describe('bench-what-to-try', () => {
  it('is accessible, with a row chosen', async () => {
    const { el, root } = await opened();
    hear(root, 'Stuffy, covered');
    await until(() => root.querySelector('li'));
    await expectAccessible(el);
  });

  it('names rows that the figures speak for apart and first, and why', async () => {
    const { root } = await opened();
    const groups = [...root.querySelectorAll('optgroup')];
    expect(groups.map(({ label }) => label)).to.deep.equal([
      'The figures show something there',
      'The figures show nothing sure there',
    ]);
    expect(groups[0]!.textContent).to.match(/Low notes late when soft/);
    expect(groups[1]!.textContent).to.match(/No resistance, collapses/);
    expect(root.querySelector('.note')!.textContent).to.match(/first because the figures of this reed show/);
  });

  it('shows beside a row what this reed shows there, with its doubt', async () => {
    const { root } = await opened();
    hear(root, 'Low notes late when soft');
    await until(() => root.querySelector('li'));
    const lines = [...root.querySelectorAll('li')];
    const blend = lines.find(({ textContent }) => textContent!.startsWith('Blend'))!;
    expect(blend.textContent).to.match(
      /^Blend: mean \d+\.\d\s±\d\.\d hundredths, \d\.\d\s±\d\.\d over K.117$/,
    );
    expect(blend.className).to.equal('speaks');
    hear(root, 'Good today, dead tomorrow');
    await until(() => root.textContent!.includes('No figure of this reed speaks of it'));
  });
});
