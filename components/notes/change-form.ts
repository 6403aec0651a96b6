import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { passSchema, scrapeSchema, wetnessSchema, type PassFacts, type PassHead } from '../../shared/pass.ts';
import { moment } from '../../shared/moment.ts';
import type { Reed } from '../../shared/reed.ts';
import '../caution/caution.ts';
import { readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { hrefOf } from '../frame/routes.ts';
import '../pass-details/scrape-places.ts';
import type { ScrapePlacesEvent } from '../pass-details/scrape-places.ts';
import { WrittenForm } from './written-form.ts';

const same = (values: readonly string[]) => values.map((value) => [value, value] as const);

/** What is typed of a pass: with the knife's facts beside those of the pass. */
const typedSchema = passSchema.extend({
  knife: scrapeSchema.shape.knife,
  knifeMinutes: scrapeSchema.shape.minutes,
  accident: scrapeSchema.shape.accident,
});
type Name = Extract<keyof typeof typedSchema.shape, string>;
const KNIFE: Readonly<Partial<Record<Name, 'knife' | 'minutes' | 'accident'>>> = {
  knife: 'knife',
  knifeMinutes: 'minutes',
  accident: 'accident',
};

const PAGES: readonly { readonly title: string; readonly fields: readonly Field<Name>[] }[] = [
  {
    title: 'What was done',
    fields: [
      { name: 'clipMm', words: 'Clipped before it, mm', kind: 'number' },
      { name: 'overallLengthMm', words: 'Overall length now, mm', kind: 'number' },
      { name: 'knife', words: 'Knife', kind: 'text' },
      { name: 'knifeMinutes', words: 'With the knife, minutes', kind: 'number' },
      {
        name: 'accident',
        words: 'Accident',
        kind: 'steps',
        options: same(scrapeSchema.shape.accident.unwrap().options),
      },
      { name: 'note', words: 'Note', kind: 'long' },
    ],
  },
  { title: 'Where the knife went', fields: [] },
  {
    title: 'When it was read',
    fields: [
      { name: 'takenAt', words: 'Day and time', kind: 'moment' },
      { name: 'wetness', words: 'The reed was', kind: 'steps', options: same(wetnessSchema.options) },
      { name: 'soakMin', words: 'Soaked, minutes', kind: 'number' },
      { name: 'openingMm', words: 'Opening, mm', kind: 'number' },
      { name: 'threadMm', words: 'Top of the thread above the cork end, mm', kind: 'number' },
      { name: 'temperatureC', words: 'Room, °C', kind: 'number' },
      { name: 'humidityPct', words: 'Room, % humidity', kind: 'number' },
    ],
  },
];
const PLACES_PAGE = 1;

/** A moment as it was typed, to the minute; the one before where it is the same minute. */
const momentTyped = (text: string, before: string | undefined) =>
  before?.startsWith(text) ? before : moment(new Date(text));

/** What was done to a reed before a pass, and how the pass was read: kept as it is written, and used everywhere at once. */
@customElement('bench-change-form')
export class ChangeForm extends WrittenForm {
  static override styles = [
    ...WrittenForm.styles,
    css`
      .fields {
        grid-template-columns: repeat(auto-fill, minmax(min(100%, 220px), 1fr));
        align-items: start;
      }
    `,
  ];

  private shown: PassFacts | undefined;

  @property({ attribute: false }) reed: Reed | undefined;
  @property({ attribute: false }) pass: PassFacts | undefined;

  override willUpdate() {
    if (!this.keeping.isWriting) this.shown = this.pass;
  }

  /** Keeps a change of the pass as it stands when its turn comes. */
  private change(change: (pass: PassHead) => PassHead) {
    const { pass } = this;
    const { store } = this.library;
    if (!pass || !store) return;
    const latest = () => store.passesOf(pass.reedId).filter(({ id }) => id === pass.id);
    void store.keepLatest(() => latest().map(change), `notes of pass ${pass.index}`);
  }

  protected override keep() {
    const { form, pass } = this;
    if (!form || !pass) return;
    const typed = readFields(new FormData(form), PAGES[this.page]!.fields, typedSchema);
    this.tell('problem' in typed ? typed : undefined);
    if ('problem' in typed) return;
    const all = Object.entries(typed.values) as (readonly [Name, unknown])[];
    const { takenAt, ...own } = Object.fromEntries(all.filter(([name]) => !KNIFE[name]));
    const knife = Object.fromEntries(
      all.flatMap(([name, value]) => (KNIFE[name] ? [[KNIFE[name], value]] : [])),
    );
    const isWritten = Object.values(knife).some((value) => value !== undefined);
    this.change((before) => ({
      ...before,
      ...own,
      ...(typeof takenAt === 'string' && { takenAt: momentTyped(takenAt, before.takenAt) }),
      ...((isWritten || before.scrape) && { scrape: { places: [], ...before.scrape, ...knife } }),
    }));
  }

  private handlePlaces({ places }: ScrapePlacesEvent) {
    this.change((pass) => ({ ...pass, scrape: { ...pass.scrape, places: [...places] } }));
  }

  private async handleRemove() {
    const { reed, pass } = this;
    await this.library.store!.remove([pass!.id], `pass ${pass!.index} of ${reed!.label} into the bin`);
    location.hash = hrefOf({ at: 'bench', reedId: reed!.id, question: 'notes' });
  }

  override render() {
    const { reed, pass } = this;
    if (!reed || !this.library.store) return nothing;
    const round = html`<a href=${hrefOf({ at: 'round', reedId: reed.id })}>round</a>`;
    if (!pass)
      return html`<section>
        <h2>Not read yet</h2>
        <p class="aside">What the knife does before the first pass is written in its ${round}.</p>
      </section>`;
    return html`<section>
      <h2>Scraped or adjusted before pass ${pass.index}</h2>
      ${this.renderPages(PAGES)}
      ${this.page === PLACES_PAGE ? this.renderPlaces(reed, pass) : this.renderFields()}
      ${this.renderProblem()}
      <p class="quiet">
        Kept as you write, and used everywhere at once. What the knife does after the last pass is written in
        the next ${round}.
      </p>
      <div class="acts">
        <button @click=${() => void this.handleRemove()}>Put pass ${pass.index} into the bin</button>
      </div>
      <bench-caution about="knife"></bench-caution>
    </section>`;
  }

  private renderFields() {
    const { scrape, ...facts } = this.shown!;
    const values = {
      ...facts,
      knife: scrape?.knife,
      knifeMinutes: scrape?.minutes,
      accident: scrape?.accident,
    };
    return this.renderForm(renderFields(PAGES[this.page]!.fields, values, this.library.writing));
  }

  private renderPlaces(reed: Reed, { scrape }: PassFacts) {
    return html`<bench-scrape-places
      .zones=${this.library.store!.styleOf(reed.styleId).zones}
      .places=${scrape?.places ?? []}
      @bench-scrape-places=${this.handlePlaces}
    ></bench-scrape-places>`;
  }
}
