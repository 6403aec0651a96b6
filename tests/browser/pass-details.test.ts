import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/pass-details/pass-details.ts';
import type { PassDetailsPanel } from '../../components/pass-details/pass-details.ts';
import { expectAccessible } from './accessible.ts';

const make = () =>
  fixture<PassDetailsPanel>(
    html`<bench-pass-details .last=${{ soakMin: 4, overallLengthMm: 70.5 }}></bench-pass-details>`,
  );
const button = (el: PassDetailsPanel, words: string) =>
  [...el.shadowRoot!.querySelectorAll('button')].find((one) => one.textContent?.trim() === words)!;

describe('bench-pass-details', () => {
  it('is accessible', async () => {
    await expectAccessible(await make());
  });

  it('takes what is given, offers what was given last time, and asks for nothing', async () => {
    const el = await make();
    button(el, 'wet').click();
    await el.updateComplete;
    button(el, 'Last time 4').click();
    await el.updateComplete;
    el.shadowRoot!.querySelector<HTMLInputElement>('[name=overallLengthMm]')!.focus();
    await sendKeys({ type: '70,3' });
    await sendKeys({ press: 'Tab' });
    expect(el.details).to.deep.equal({ wetness: 'wet', soakMin: 4, overallLengthMm: 70.3 });
    expect(button(el, 'Last time 4')).to.equal(undefined);
  });

  it('takes the time with the knife, and keeps the knife beside it', async () => {
    const el = await make();
    el.shadowRoot!.querySelector('details')!.open = true;
    el.shadowRoot!.querySelector<HTMLInputElement>('[name=knife]')!.focus();
    await sendKeys({ type: 'bevelled' });
    await sendKeys({ press: 'Tab' });
    el.shadowRoot!.querySelector<HTMLInputElement>('[name=minutes]')!.focus();
    await sendKeys({ type: '12' });
    await sendKeys({ press: 'Tab' });
    expect(el.details.scrape).to.deep.equal({ knife: 'bevelled', minutes: 12, places: [] });
    el.shadowRoot!.querySelector<HTMLInputElement>('[name=minutes]')!.select();
    await sendKeys({ type: '5000' });
    await sendKeys({ press: 'Tab' });
    await el.updateComplete;
    expect(el.details.scrape?.minutes).to.equal(12);
    expect(el.shadowRoot!.querySelector('[role=status]')!.textContent).to.contain('5000 cannot be');
  });

  it('leaves out what cannot be, and says so', async () => {
    const el = await make();
    el.shadowRoot!.querySelector<HTMLInputElement>('[name=overallLengthMm]')!.focus();
    await sendKeys({ type: '7' });
    await sendKeys({ press: 'Tab' });
    await el.updateComplete;
    expect(el.details).to.deep.equal({});
    expect(el.shadowRoot!.querySelector('[role=status]')!.textContent).to.contain('7 cannot be');
  });

  it('takes where the knife went, with strokes, and an accident; offers the places of last time', async () => {
    const el = await make();
    el.zones = [
      { name: 'tip', title: 'Tip' },
      { name: 'windows', title: 'Windows' },
    ];
    el.last = { scrape: { places: [{ zone: 'windows', blade: 'both', side: 'left' }] } };
    await el.updateComplete;
    const places = el.shadowRoot!.querySelector('bench-scrape-places')!;
    const inPlaces = (words: string) =>
      [...places.shadowRoot!.querySelectorAll('button')].find((one) => one.textContent?.trim() === words)!;
    await places.updateComplete;
    expect(inPlaces('Last time windows')).not.to.equal(undefined);
    inPlaces('Tip').click();
    await el.updateComplete;
    await places.updateComplete;
    const strokes = places.shadowRoot!.querySelector<HTMLInputElement>('[aria-label="Tip, strokes"]')!;
    strokes.focus();
    await sendKeys({ type: 'many' });
    await sendKeys({ press: 'Tab' });
    expect(strokes.getAttribute('aria-invalid')).to.equal('true');
    strokes.focus();
    strokes.select();
    await sendKeys({ type: '12' });
    await sendKeys({ press: 'Tab' });
    await el.updateComplete;
    button(el, 'chip').click();
    await el.updateComplete;
    expect(el.details.scrape).to.deep.equal({
      places: [{ zone: 'tip', blade: 'both', side: 'both', strokes: 12 }],
      accident: 'chip',
    });
    await expectAccessible(el);
  });
});
