import { expect } from 'chai';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/setup/setup-screen.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

describe('the list of Setup', () => {
  it('shows each value, finds by words, opens in place and keeps what is chosen', async () => {
    const { store, host } = await emptyLibrary();
    const el = document.createElement('bench-setup');
    host.append(el);
    await until(() => el.shadowRoot?.querySelector('.groups'));
    const root = el.shadowRoot!;
    const text = () => root.querySelector('.groups')!.textContent!.replace(/\s+/g, ' ');
    expect(text()).to.match(/Unit of thickness\s*hundredths of a mm/);
    // At most eight fields are in sight: none but the search, as long as nothing is opened.
    const inSight = () =>
      [...root.querySelectorAll<HTMLElement>('input, select')].filter((one) => one.checkVisibility());
    expect(inSight()).to.have.length(1);
    await expectAccessible(el);
    root.querySelector<HTMLInputElement>('[type=search]')!.focus();
    await sendKeys({ type: 'decimal' });
    await until(() => root.querySelectorAll('.setting').length === 1);
    expect(text()).to.contain('Words and numbers').and.not.to.contain('Unit of thickness');
    root.querySelector<HTMLElement>('.setting summary')!.focus();
    await sendKeys({ press: 'Enter' });
    await until(() => inSight().length === 2);
    const select = root.querySelector<HTMLSelectElement>('.setting select')!;
    select.selectedIndex = 1;
    select.dispatchEvent(new Event('change'));
    await until(() => store.choices.decimal === 'comma');
    await until(() => /Decimal sign\s*comma: 0,46/.test(text()));
    root.querySelector<HTMLInputElement>('[type=search]')!.focus();
    await sendKeys({ type: ' nowhere' });
    await until(() =>
      root.querySelector('[role=status]')!.textContent!.includes('Nothing here is called that.'),
    );
    host.remove();
  });

  it('keeps two choices made as fast as they come, and takes neither for a quarrel of two windows', async () => {
    const { store, host } = await emptyLibrary();
    await store.choose({ textScale: 1.2 });
    const kept = await Promise.all([
      store.choose({ unit: 'mm' }),
      store.choose({ decimal: 'comma' }),
      store.choose({ unit: 'thou' }),
    ]);
    expect(kept).to.deep.equal([true, true, true]);
    expect(store.choices).to.include({ unit: 'thou', decimal: 'comma', textScale: 1.2 });
    expect(store.trouble).to.equal(undefined);
    host.remove();
  });
});
