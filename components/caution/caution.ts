import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BenchElement } from '../theme/bench-element.ts';

/**
 * The usual cautions, in our own words. Sources: general guidance for hand tools; IARC volumes 62 and 100C and the
 * woodworking pages of the UK HSE for dust; case reports of moulds in wind instruments (Chest 2010; European Clinical
 * Respiratory Journal 2017); BMC Dermatology 4:3, 2004 for lips. The ball and shared reeds: common practice, no source.
 */
const CAUTIONS = {
  knife:
    'Cut on a steady rest, the edge’s path clear of fingers and body; let a falling knife fall. Keep it sharp, and sheathed when it leaves the hand.',
  paper: 'Sand wet or with a mask, and wipe the bench: dry dust is not blown away.',
  tying: 'Mind the ends of the wire: they pierce fingers and lips. Bend them flat, away from the mouth.',
  varnish:
    'Varnish and ink in fresh air; let them dry hard before the reed goes near a mouth, and keep them off the cane that is played.',
  machine: 'Keep fingers out of the path of the gouger’s and the shaper’s blade.',
  dust: 'Fine dust of wood harms the lungs and is classed as a carcinogen; cane is not known to be safer. Work it wet or with extraction, and do not blow it about.',
  mouth:
    'Rinse a reed before and after it is played. Stop, and see a doctor, about sore lips, a lasting cough or breathlessness.',
  mould: 'Dry and air reeds between days; a mouldy one is thrown away, not played.',
  sharing: 'A reed that goes from mouth to mouth is cleaned first, or better: each plays their own.',
  ball: 'The ball dents a thin wet tip: lower it gently, and do not leave it there.',
} as const;
type CautionAbout = keyof typeof CAUTIONS;

/** One or more cautions where they belong, short; local rules and licensed practice come first. */
@customElement('bench-caution')
export class Caution extends BenchElement {
  static override styles = css`
    p {
      max-width: 90ch;
      margin: 0;
      color: var(--bench-ink2);
      font: var(--bench-font-caption);
    }
  `;

  /** What it is about: names of cautions with blanks between. */
  @property() about = '';

  override render() {
    const names = this.about.split(' ').filter((name): name is CautionAbout => Object.hasOwn(CAUTIONS, name));
    return html`<p>
      ${names.map((name) => CAUTIONS[name]).join(' ')} Local rules and licensed practitioners come first.
    </p>`;
  }
}
