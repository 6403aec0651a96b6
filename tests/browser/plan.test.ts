import { expect } from 'chai';
import { oneEvent } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/bench/next.ts';
import '../../components/plan/meant-done.ts';
import '../../components/plan/scrape-form.ts';
import type { ClipRuler, ClipSlideEvent } from '../../components/plan/clip-ruler.ts';
import { benchReed } from '../../src/answers/fitted-reed.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { planContent } from '../../src/plan/kept-plan.ts';
import { makePlan, planTowards } from '../../src/plan/make-plan.ts';
import { makeTarget, type Followed } from '../../src/plan/make-target.ts';
import { sayStep } from '../../src/plan/say-step.ts';
import { expectAccessible } from './accessible.ts';
import { inventedBench } from './invented-bench.ts';
import { until } from './until.ts';

/** Far under the invented favourite, so that there is work in the tip and behind it. */
const followed: Followed = {
  name: 'thinner',
  recipe: {
    from: 'zones',
    zones: [
      { name: 'tip', meanMm: 0.07 },
      { name: 'heart', meanMm: 0.38 },
    ],
  },
  placing: 'tip',
  reeds: [],
};

const words = (root: ParentNode) => root.textContent!.replace(/\s+/g, ' ').trim();
const button = (root: ParentNode, name: RegExp) =>
  [...root.querySelectorAll('button')].find(({ textContent }) => name.test(textContent!))!;

async function next() {
  const { store, host, idOf } = await inventedBench();
  const id = idOf('K-117');
  const benched = await store.models.bench(store.reed(id)!, store.passesOf(id));
  const el = document.createElement('bench-next');
  Object.assign(el, { benched, pass: 0, followed });
  host.append(el);
  const inner = (name: string) => el.shadowRoot!.querySelector(name)!.shadowRoot!;
  await until(() => el.shadowRoot?.querySelector('bench-plan-step')?.shadowRoot?.querySelector('.say'));
  await until(() => inner('bench-clip-ruler').querySelector('input'));
  return { store, el, benched, inner };
}
const place = (step: ShadowRoot) => words(step.querySelector('.say')!);

describe('bench-next', () => {
  it('is accessible', async () => {
    await expectAccessible((await next()).el);
  });

  it('leaves the tip to the last until the maker says otherwise', async () => {
    const { el, inner } = await next();
    expect(place(inner('bench-plan-step'))).to.match(/^Heart/);
    const tipLast = el.shadowRoot!.querySelector<HTMLInputElement>('label.line input')!;
    expect(tipLast.checked).to.equal(true);
    tipLast.click();
    await until(() => /^Corners/.test(place(inner('bench-plan-step'))));
    tipLast.click();
    await until(() => /^Heart/.test(place(inner('bench-plan-step'))));
  });

  it('keeps the strokes as far from a floor and a lack as Setup says, and says so', async () => {
    const { el, inner, store } = await next();
    const zones = [
      { name: 'heart', meanMm: 0.38 },
      { name: 'blend', meanMm: 0.6 },
    ];
    const besideLack: Followed = { ...followed, recipe: { from: 'zones', zones } };
    el.followed = besideLack;
    const planned = (marginMm: number) => {
      const own = { benched: el.benched!, pass: 0 };
      const [first] = planTowards(own, besideLack, { marginMm }).plan.steps;
      const { where } = sayStep(first!, 'thinner', { name: undefined, known: undefined }, el.writing);
      return where.replace(/\s+/g, ' ');
    };
    const shows = async (marginMm: number) => {
      await until(() =>
        words(el.shadowRoot!).includes(`Strokes stay ${marginMm} mm from a floor or a lack.`),
      );
      await until(() => place(inner('bench-plan-step')).startsWith(planned(marginMm)));
    };
    await shows(2);
    await store.choose({ marginMm: 1 });
    await shows(1);
    expect(planned(1)).not.to.equal(planned(2));
  });

  it('shows another step, and keeps the one that is taken up', async () => {
    const { store, benched, inner } = await next();
    const step = inner('bench-plan-step');
    button(step, /^\s*Not this/).click();
    await until(() => /^Corners/.test(place(step)));
    button(step, /Take up this plan/).click();
    await until(() => store.snapshot.live['scrape-plan'].length === 1);
    const [plan] = store.snapshot.live['scrape-plan'];
    expect(plan!.reedId).to.equal(benched.reed.id);
    expect(plan!.steps.map(({ zone }) => zone)).to.deep.equal(['corners']);
    await until(() => /Kept\. Scrape, then/.test(words(step)));
  });

  it('shows what a clip would make of the reed, and the closest version', async () => {
    const { el, inner } = await next();
    const heads = () =>
      [
        ...inner('bench-clip-ruler')
          .querySelector('bench-figures-table')!
          .shadowRoot!.querySelectorAll('thead th'),
      ].map(words);
    // At rest there is nothing to set beside the reed as it is.
    expect(inner('bench-clip-ruler').querySelector('bench-figures-table')).to.equal(null);
    inner('bench-clip-ruler').querySelector('input')!.focus();
    await sendKeys({ press: 'ArrowRight' });
    await until(() =>
      inner('bench-clip-ruler').querySelector('bench-figures-table')?.shadowRoot?.querySelector('th'),
    );
    await until(() => heads().some((head) => /^Clip 0\.10\smm$/.test(head)));
    const plate = el.shadowRoot!.querySelector('bench-plan-plate')!;
    const pair = plate.shadowRoot!.querySelector('bench-blade-pair')!;
    expect(pair.caption).to.match(/as it would be after a clip of 0\.10\smm/);
    await sendKeys({ press: 'ArrowLeft' });
    await until(() => inner('bench-clip-ruler').querySelector('bench-figures-table') === null);
    button(inner('bench-closest'), /Look for the closest/).click();
    await until(() => inner('bench-closest').querySelector('[role=status]'));
    expect(words(inner('bench-closest').querySelector('[role=status]')!)).to.match(
      /^The closest that can be reached: thinner .*falls from .*\(±.*on average/,
    );
  });
});

describe('bench-clip-ruler', () => {
  it('goes by a tenth, with Shift by half of that, and no further than its ends', async () => {
    const { inner } = await next();
    const ruler = inner('bench-clip-ruler').host as ClipRuler;
    inner('bench-clip-ruler').querySelector('input')!.focus();
    const slid = async (press: string) => {
      const event = oneEvent<ClipSlideEvent>(ruler, 'bench-clip-slide');
      await sendKeys({ press });
      const { clipMm } = await event;
      await until(() => (ruler.then?.clipMm ?? 0) === clipMm);
      return clipMm;
    };
    expect(await slid('ArrowLeft')).to.equal(0);
    expect(await slid('ArrowRight')).to.be.closeTo(0.1, 1e-12);
    await sendKeys({ down: 'Shift' });
    expect(await slid('ArrowRight')).to.be.closeTo(0.15, 1e-12);
    await sendKeys({ up: 'Shift' });
    expect(inner('bench-clip-ruler').querySelector('input')!.getAttribute('aria-valuetext')).to.match(
      /^clip 0\.15\smm$/,
    );
  });
});

/** K-117 after a second pass that took 3 hundredths from its blend, with plans that were made before it. */
async function worked(count: number) {
  const { store, host, idOf } = await inventedBench();
  const reed = store.reed(idOf('K-117'))!;
  const [first] = await store.loadPasses(reed.id);
  const readings = first!.readings.map((reading) => ({
    ...reading,
    thicknessMm: reading.thicknessMm! - (reading.fromTipMm >= 5 && reading.fromTipMm <= 9 ? 0.03 : 0),
  }));
  const { overallLengthMm, threadMm } = first!;
  const second = {
    kind: 'pass' as const,
    reedId: reed.id,
    index: 1,
    overallLengthMm,
    threadMm,
    remedies: [],
  };
  await store.keep([{ ...second, readings }], 'a second pass');
  const benched = benchReed(reed, await store.loadPasses(reed.id));
  const own = { benched, pass: 0 };
  const target = makeTarget(followed, own, mapGrid(23, 51, 31));
  const steps = makePlan(own, target).plan.steps.filter(({ zone }) => zone === 'heart');
  const plan = planContent(own, target.name, target.grid, steps, () => 6, 'bevelled');
  await store.keep(
    Array.from({ length: count }, () => plan),
    'plans',
  );
  const plans = store.snapshot.live['scrape-plan'];
  const el = document.createElement('bench-meant-done');
  Object.assign(el, { benched, pass: 1, plan: plans[0], plans });
  host.append(el);
  await until(() =>
    el.shadowRoot?.querySelector('bench-figures-table')?.shadowRoot?.querySelector('tbody tr'),
  );
  return { store, reed, el, root: el.shadowRoot! };
}

describe('bench-meant-done', () => {
  it('is accessible, and sets what was meant beside what was done on each blade', async () => {
    const { el, root } = await worked(1);
    root.querySelector('summary')!.click();
    await expectAccessible(el);
    const rows = [...root.querySelector('bench-figures-table')!.shadowRoot!.querySelectorAll('tbody tr')];
    expect(rows.map((row) => words(row))).to.have.length(2);
    for (const row of rows) expect(words(row)).to.match(/^Heart, [AB] .*±.*(as meant|more|less)/);
    expect(words(root)).to.match(/Too few plans were read again/);
  });

  it('says how well past plans told what would go, once there are enough', async () => {
    const { root } = await worked(2);
    expect(words(root)).to.match(
      /Over 4 pieces of work \d+\s% of what was meant went; one alone strays by about/,
    );
  });
});

describe('bench-scrape-form', () => {
  it('offers the strokes that were meant, refuses what are none, and keeps them with the pass', async () => {
    const { store, reed, root } = await worked(1);
    root.querySelector('summary')!.click();
    const form = () => root.querySelector('bench-scrape-form')!.shadowRoot!;
    await until(() => form().querySelector('.place'));
    const field = (name: string) => form().querySelector<HTMLInputElement>(`[name="${name}"]`)!;
    expect(field('knife').value).to.equal('bevelled');
    expect(field('strokes 0').value).to.equal('6');
    expect(field('zone 0').value).to.equal('heart');
    field('strokes 0').value = 'many';
    form().querySelector('form')!.requestSubmit();
    await until(() => /whole numbers from 0 to 1000/.test(words(form())));
    expect(store.passesOf(reed.id)[1]!.scrape).to.equal(undefined);
    field('strokes 0').value = '8';
    button(form(), /Another place/).click();
    await until(() => field('zone 1'));
    field('zone 1').value = 'tip';
    form().querySelector('form')!.requestSubmit();
    await until(() => store.passesOf(reed.id)[1]!.scrape);
    const { knife, places } = store.passesOf(reed.id)[1]!.scrape!;
    expect(knife).to.equal('bevelled');
    expect(places).to.deep.equal([
      { zone: 'heart', blade: 'both', side: 'both', strokes: 8 },
      { zone: 'tip', blade: 'both', side: 'both' },
    ]);
  });
});
