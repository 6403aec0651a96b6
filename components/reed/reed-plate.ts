import { html, nothing, type PropertyValues } from 'lit';
import { property } from 'lit/decorators.js';
import type { Place } from '../../shared/blade.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import type { PlateSheet } from '../bench/plate-sheet.ts';
import '../map/blade-pair.ts';
import type { ProfileLine } from '../map/map-data.ts';
import type { MapProbeEvent } from '../map/map-events.ts';
import { printChoice, PrintChooseEvent, STANCES, type Print } from '../map/prints.ts';
import { oneOf, ReedPart } from './reed-part.ts';

/**
 * What the elements with a pair of blades share: the maps beside each other, or the reed as a body in their place.
 *
 * @fires {MapProbeEvent} bench-map-probe - Pointer or keys rest on a place of a blade, or have left the blades: `event.place`.
 * @fires {MapLineMoveEvent} bench-map-line-move - The line on the blades was dragged or stepped: `event.line`.
 * @fires {MapStationOpenEvent} bench-map-station-open - The reading of a station was asked for: `event.place`.
 * @fires {PrintChooseEvent} bench-print-choose - The reader laid the reed another way: `event.print`, and `stance` is new.
 * @csspart blades - The maps.
 * @csspart words - Heading, caption and note.
 * @slot third - A picture beside the blades, at their height.
 * @slot foot - Controls under the blades, before the key.
 */
export abstract class ReedPlate extends ReedPart {
  /** How the reed lies: `flat` (maps), or as a body `opened` (the blades beside each other) or on its `staple`. */
  @property({ reflect: true, useDefault: true }) stance: Print = 'flat';
  /** Offers the reader to lay it another way. */
  @property({ type: Boolean, attribute: 'can-turn', reflect: true }) canTurn = false;
  /** Shows the lamp's view beside the body on its staple. */
  @property({ type: Boolean, attribute: 'with-lamp', reflect: true }) withLamp = false;
  /** A place that is marked, with the one that faces it: `blade`, `fromTipMm`, `across`. Follows pointer and keys. */
  @property({ attribute: false }) probe: Place | undefined;
  /** A line drawn on both blades, to be dragged: `{ kind: 'down', across }` or `{ kind: 'across', fromTipMm }`. */
  @property({ attribute: false }) line: ProfileLine | undefined;
  /**
   * The cane that the blades were made of, where its gouge is known.
   *
   * @internal
   */
  @property({ attribute: false }) original: OriginalCane | undefined;

  protected override get misfit() {
    return super.misfit ?? oneOf('stance', this.stance, STANCES);
  }

  override willUpdate(changed: PropertyValues) {
    super.willUpdate(changed);
    if (changed.has('fitted') || changed.has('pass')) this.probe = undefined;
  }

  private handleProbe({ place }: MapProbeEvent) {
    this.probe = place;
  }

  private async handlePrint(print: Print) {
    this.stance = print;
    this.dispatchEvent(new PrintChooseEvent(print));
    await this.updateComplete;
    // The choice stands under what is printed: the keyboard goes along.
    this.renderRoot.querySelector<HTMLElement>('.choice [aria-pressed="true"]')?.focus();
  }

  protected renderPlate(at: ReedAtPass, sheet: PlateSheet) {
    const { unit, decimal, stance, probe } = this;
    const probeText = probe ? sheet.probed(probe) : '';
    const isFlat = stance === 'flat';
    const choice = this.canTurn ? printChoice(stance, (print) => void this.handlePrint(print)) : nothing;
    return html`<bench-blade-pair
      exportparts="blades, words"
      .a=${sheet.plate.A}
      .b=${sheet.plate.B}
      .quantity=${sheet.quantity}
      .unit=${unit}
      .decimal=${decimal}
      heading=${sheet.heading}
      caption=${sheet.caption}
      note=${sheet.note ?? ''}
      label=${sheet.label ?? ''}
      .ends=${sheet.ends}
      .key=${sheet.key}
      .print=${stance}
      ?without-legend=${!isFlat && sheet.carried === 'strokes'}
      .probe=${probe}
      probe-text=${probeText}
      .line=${this.line}
      @bench-map-probe=${this.handleProbe}
    >
      ${isFlat ? choice : this.renderBody(at, sheet, probeText, choice)}
      <slot name="third" slot="third"></slot>
      <slot name="foot" slot="foot"></slot>
    </bench-blade-pair>`;
  }

  /** The reed as a body, carrying what the flat maps print. */
  private renderBody(
    { benched, pass }: ReedAtPass,
    { plate, carried, clipMm }: PlateSheet,
    probeText: string,
    choice: unknown,
  ) {
    // Only for those who look at it.
    void import('./reed-relief.ts');
    return html`<bench-reed-relief
      bare
      slot="print"
      .fitted=${benched}
      .pass=${benched.assembled.passes[pass]?.index}
      .stance=${this.stance}
      .plate=${carried && plate}
      .carried=${carried}
      .clipMm=${clipMm}
      .withLamp=${this.withLamp}
      .original=${this.original}
      .unit=${this.unit}
      .decimal=${this.decimal}
      .probe=${this.probe}
      probe-text=${probeText}
      >${choice}</bench-reed-relief
    >`;
  }
}
