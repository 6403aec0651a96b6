import { css, html, nothing } from 'lit';
import { thicknessMmSchema } from '../../shared/fields.ts';
import { customElement, property, state } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import { recipeSchema, type Example, type Recipe, type TargetDocument } from '../../shared/target.ts';
import { MM_PER } from '../../shared/units.ts';
import { startingStyle } from '../../src/blade/starting-styles.ts';
import { USUAL_SPREAD_MM } from '../../src/plan/target.ts';
import { amountText, UNIT_WORDS } from '../../src/words/format.ts';
import { hiddenProblem, textIn } from '../form-fields.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { fields } from './fields.styles.ts';
import { exampleOptions, type ExampleOption } from './target-options.ts';

type Made = Pick<TargetDocument, 'name' | 'recipe' | 'placing'>;

/** The maker put a target together. */
export class TargetMadeEvent extends Event {
  readonly made: Made;

  constructor(made: Made) {
    super('bench-target-made');
    this.made = made;
  }
}

type Kind = Exclude<Recipe['from'], 'style'>;
const KINDS: readonly (readonly [Kind, string])[] = [
  ['reeds', 'The mean of several reeds'],
  ['tip-and-back', 'The tip of one, the back of another'],
  ['zones', 'Zone values set by hand'],
];

/** The tip meets the back within this, mm. Common practice, no source. */
const OVER_MM = 2;

/** A number with point or comma; NaN for a blank. */
const numberOf = (form: FormData, name: string) => {
  const text = String(form.get(name) ?? '').trim();
  return text === '' ? NaN : Number(text.replace(',', '.'));
};

/**
 * Puts a target together from several reeds, two reeds, or values set by hand.
 *
 * @event bench-target-made - A sound target was put together.
 */
@customElement('bench-target-maker')
export class TargetMaker extends BenchElement {
  static override styles = [
    controls,
    fields,
    css`
      form {
        display: grid;
        gap: var(--bench-space-3);
        padding: var(--bench-space-3);
        border: 1px solid var(--bench-rule);
        border-radius: var(--bench-radius-plate);
      }
      fieldset {
        max-height: 320px;
        margin: 0;
        padding: 0;
        overflow-y: auto;
        border: 0;
      }
      legend {
        padding: 0 0 var(--bench-space-1);
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .zones {
        display: grid;
        grid-template-columns: repeat(2, minmax(0, 1fr));
        gap: var(--bench-space-2) var(--bench-space-3);
      }
      button {
        justify-self: start;
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  @state() private kind: Kind = 'reeds';
  @state() private problem = '';

  private get examples(): readonly ExampleOption[] {
    const { store } = this.library;
    return store && this.reed ? exampleOptions(store, this.reed.styleId) : [];
  }

  private get zones() {
    return this.library.store!.styleOf(this.reed!.styleId).zones;
  }

  private example(form: FormData, name: string): Example | undefined {
    const at = String(form.get(name) ?? '');
    const found = at === '' ? undefined : this.examples[Number(at)];
    return found && { reedId: found.reedId, passIndex: found.passIndex };
  }

  private recipeFrom(form: FormData): Recipe | string {
    if (this.kind === 'reeds') {
      const examples = form
        .getAll('example')
        .flatMap((at) => this.examples[Number(at)] ?? [])
        .map(({ reedId, passIndex }) => ({ reedId, passIndex }));
      return examples.length >= 2 ? { from: 'reeds', examples } : 'Choose two reeds or more.';
    }
    if (this.kind === 'tip-and-back') {
      const [tip, back, atMm] = [this.example(form, 'tip'), this.example(form, 'back'), numberOf(form, 'at')];
      if (!tip || !back) return 'Choose a reed for the tip and one for the back.';
      const recipe = { from: 'tip-and-back' as const, tip, back, atMm, overMm: OVER_MM };
      return recipeSchema.safeParse(recipe).success
        ? recipe
        : 'Where the tip meets the back must be a distance from the tip, in mm.';
    }
    return this.zoneRecipe(form);
  }

  private zoneRecipe(form: FormData): Recipe | string {
    const per = MM_PER[this.library.writing.unit];
    const set = this.zones.map(({ name, title }) => ({
      name,
      title,
      meanMm: numberOf(form, `zone ${name}`) * per,
      isBlank: String(form.get(`zone ${name}`) ?? '').trim() === '',
    }));
    const wrong = set.find(({ isBlank, meanMm }) => !isBlank && !thicknessMmSchema.safeParse(meanMm).success);
    if (wrong)
      return `${wrong.title}: this is not a thickness. Write it in ${UNIT_WORDS[this.library.writing.unit].name}.`;
    const zones = set.filter(({ isBlank }) => !isBlank).map(({ name, meanMm }) => ({ name, meanMm }));
    return zones.length > 0 ? { from: 'zones', zones } : 'Set one zone or more.';
  }

  private handleSubmit(event: SubmitEvent) {
    event.preventDefault();
    const element = event.currentTarget as HTMLFormElement;
    const form = new FormData(element);
    const name = textIn(form, 'name') ?? '';
    const recipe = this.recipeFrom(form);
    this.problem = typeof recipe === 'string' ? recipe : name === '' ? 'Give the target a name.' : '';
    this.problem ||= hiddenProblem(element.querySelector<HTMLInputElement>('[name=name]')!);
    if (this.problem || typeof recipe === 'string') return;
    this.dispatchEvent(new TargetMadeEvent({ name, recipe, placing: 'tip' }));
  }

  override render() {
    return html`<form @submit=${this.handleSubmit}>
      <label
        >What it is made of<select
          @change=${(event: Event) => (this.kind = (event.target as HTMLSelectElement).value as Kind)}
        >
          ${KINDS.map(([kind, words]) => html`<option value=${kind} ?selected=${kind === this.kind}>${words}</option>`)}
        </select></label
      >
      ${this.renderKind()}
      <label>Name<input name="name" maxlength="80" autocomplete="off" /></label>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
      <button>Keep this target</button>
    </form>`;
  }

  private renderKind() {
    if (this.kind === 'reeds')
      return html`<fieldset>
          <legend>Reeds, each as it was at a pass</legend>
          ${this.examples.map(
            ({ words }, at) =>
              html`<label class="line"><input type="checkbox" name="example" value=${at} />${words}</label>`,
          )}
        </fieldset>
        <p class="note">
          Their mean is the target, and how they differ from each other is your own variety; few reeds are
          taken to differ by a usual ${amountText(USUAL_SPREAD_MM, this.library.writing)} (common practice, no
          source).
        </p>`;
    return this.kind === 'tip-and-back' ? this.renderHybrid() : this.renderZones();
  }

  private renderHybrid() {
    const select = (name: string, words: string) =>
      html`<label
        >${words}<select name=${name}>
          <option value="">–</option>
          ${this.examples.map(({ words: example }, at) => html`<option value=${at}>${example}</option>`)}
        </select></label
      >`;
    const { tipMm } = startingStyle(this.reed!.styleId).lengths;
    return html`${select('tip', 'Tip of')} ${select('back', 'Back of')}
      <label
        >Going over at, mm from the tip<input
          name="at"
          inputmode="decimal"
          autocomplete="off"
          value=${tipMm + 1}
      /></label>`;
  }

  private renderZones() {
    const unit = UNIT_WORDS[this.library.writing.unit].name;
    return html`<div class="zones">
        ${this.zones.map(
          ({ name, title }) =>
            html`<label
              >${title}<input name=${`zone ${name}`} inputmode="decimal" autocomplete="off"
            /></label>`,
        )}
      </div>
      <p class="note">
        Means over the zone, in ${unit}; a blank zone has no target. Inside a zone the shape is the one usual
        for the style (common practice, no source).
      </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-target-maker': TargetMaker;
  }
}
