import { expect } from 'chai';
import '../../components/map/blade-map.ts';
import '../../components/map/map-legend.ts';
import { fixture, html } from '@open-wc/testing-helpers';
import { inventedBlade } from './blades.ts';
import { emulateFeatures } from './emulate.ts';
import { LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { PALETTE } from '../../components/theme/palette.ts';
import {
  adoptTokens,
  chooseTextScale,
  chooseTheme,
  ThemeController,
} from '../../components/theme/theme-controller.ts';

@customElement('test-themed')
class Themed extends LitElement {
  readonly theme = new ThemeController(this);
  updates = 0;
  override updated() {
    this.updates++;
  }
}

const token = (element: Element, name: string) => getComputedStyle(element).getPropertyValue(name).trim();
const root = document.documentElement;

describe('theme', () => {
  afterEach(async () => {
    chooseTheme(root, 'system');
    chooseTextScale(root, 1);
    await emulateFeatures({});
  });

  it('is adopted once, however many elements ask for it', async () => {
    const count = document.adoptedStyleSheets.length;
    await fixture(html`<test-themed></test-themed>`);
    await fixture(html`<test-themed></test-themed>`);
    adoptTokens(document);
    expect(document.adoptedStyleSheets.length - count).to.be.at.most(1);
    expect(token(root, '--bench-ink')).to.equal(PALETTE.day.ink);
  });

  it('follows the system for day and dark, until a look is chosen', async () => {
    const el = await fixture<Themed>(html`<test-themed></test-themed>`);
    await emulateFeatures({ 'prefers-color-scheme': 'dark' });
    expect(el.theme.name).to.equal('dark');
    chooseTheme(root, 'day');
    expect(el.theme.name).to.equal('day');
  });

  it('lets one part of a page be lit by the lamp', async () => {
    const part = await fixture<HTMLElement>(html`<div><test-themed></test-themed></div>`);
    chooseTheme(part, 'lamp');
    expect(token(part.firstElementChild!, '--bench-paper')).to.equal(PALETTE.lamp.paper);
    expect(token(root, '--bench-paper')).to.equal(PALETTE.day.paper);
  });

  it('updates its hosts when the look or the size of type changes, and no longer once they are gone', async () => {
    const el = await fixture<Themed>(html`<test-themed></test-themed>`);
    const before = el.updates;
    chooseTextScale(root, 1.5);
    await el.updateComplete;
    expect(el.updates).to.equal(before + 1);
    expect(el.theme.textScale).to.equal(1.5);
    el.remove();
    chooseTheme(root, 'dark');
    await el.updateComplete;
    expect(el.updates).to.equal(before + 1);
  });

  it("moves every step of type by the maker's factor", async () => {
    adoptTokens(document);
    const line = await fixture<HTMLElement>(html`<p>42</p>`);
    line.style.setProperty('font', 'var(--bench-font-body)');
    expect(getComputedStyle(line).fontSize).to.equal('15px');
    chooseTextScale(root, 1.2);
    expect(getComputedStyle(line).fontSize).to.equal('18px');
  });

  it('sets figures in columns: every digit is as wide as the next', async () => {
    const el = await fixture<HTMLElement>(html`<bench-map-legend></bench-map-legend>`);
    expect(getComputedStyle(el.shadowRoot!.querySelector('text')!).fontVariantNumeric).to.contain(
      'tabular-nums',
    );
  });

  it('moves nothing by itself where motion is unwelcome', async () => {
    const el = await fixture<HTMLElement & { data: unknown; updateComplete: Promise<unknown> }>(
      html`<bench-blade-map .data=${inventedBlade('A')}></bench-blade-map>`,
    );
    const band = () => getComputedStyle(el.shadowRoot!.querySelector('.bands path')!).transitionDuration;
    await emulateFeatures({ 'prefers-reduced-motion': 'no-preference' });
    expect(band()).to.equal('0.12s');
    await emulateFeatures({ 'prefers-reduced-motion': 'reduce' });
    expect(band()).to.equal('0s');
  });

  it("takes the system's colours when they are forced", async () => {
    adoptTokens(document);
    await emulateFeatures({ 'forced-colors': 'active' });
    expect(token(root, '--bench-ink')).to.equal('CanvasText');
  });
});
