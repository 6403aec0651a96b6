import { css, html, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { UNIT_WORDS } from '../../src/words/format.ts';
import { hrefOf } from '../frame/routes.ts';
import type { Choices } from '../store/choices.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './bin.ts';
import './check-all.ts';
import './copies.ts';
import './keeping-state.ts';
import './not-chosen.ts';
import './share-case.ts';
import '../keeping/set-aside-pieces.ts';
import './set-aside.ts';
import { boxes } from '../theme/forms.styles.ts';
import { rows } from './setup.styles.ts';
import './two-sides.ts';

/** A row of the list: a choice, its words, and what may be chosen. */
interface Row<K extends keyof Choices> {
  readonly key: K;
  readonly words: string;
  readonly options: readonly (readonly [value: Choices[K], words: string])[];
}

const row = <K extends keyof Choices>(key: K, words: string, options: Row<K>['options']): Row<K> => ({
  key,
  words,
  options,
});

const ROWS = [
  row('unit', 'Unit of thickness', [
    ['hundredths', UNIT_WORDS.hundredths.name],
    ['mm', UNIT_WORDS.mm.name],
    ['thou', UNIT_WORDS.thou.name],
  ]),
  row('decimal', 'Decimal sign', [
    ['point', 'point: 0.46'],
    ['comma', 'comma: 0,46'],
  ]),
  row('theme', 'Look', [
    ['system', 'as the system'],
    ['day', 'day'],
    ['dark', 'dark'],
    ['lamp', 'lamp: warm and dim'],
  ]),
  row('textScale', 'Size of text', [
    [0.9, 'smaller'],
    [1, 'usual'],
    [1.2, 'larger'],
    [1.5, 'largest'],
  ]),
  row('handedness', 'Hand that holds the knife', [
    ['right', 'right'],
    ['left', 'left'],
  ]),
  row(
    'pitchHz',
    'Your A',
    [438, 440, 441, 442, 443, 444, 446].map((hz) => [hz, `${hz} Hz`] as const),
  ),
  row('tipLast', 'The tip', [
    [true, 'is left until last'],
    [false, 'is scraped in its turn'],
  ]),
  row(
    'marginMm',
    'Strokes stay away from a floor or a lack by',
    [1, 2, 3, 4].map((mm) => [mm, `${mm} mm`] as const),
  ),
  row('letterKeys', 'Single-letter keys', [
    [true, 'on'],
    [false, 'off'],
  ]),
  row('sounds', 'Sounds in a round', [
    ['off', 'none'],
    ['tones', 'tones'],
    ['speech', 'spoken'],
  ]),
  row('takes', 'A reading in a round is taken', [
    ['enter', 'by Enter'],
    ['digits', 'by its last digit: two, or three in thousandths of a mm'],
  ]),
  row('fromOthers', 'A reed read in few places is told', [
    [true, 'from its readings and your other reeds'],
    [false, 'from its own readings alone'],
  ]),
  row('digits', 'Digits on the screen', [
    ['telephone', 'as on a telephone: 1 at the top'],
    ['number-pad', 'as on a number pad: 7 at the top'],
  ]),
] as const;

/** What a maker comes to Setup for. */
interface Group {
  readonly name: string;
  readonly keys: readonly (keyof Choices)[];
  readonly links: readonly (readonly [words: string, value: string, href: string])[];
}

const GROUPS: readonly Group[] = [
  {
    name: 'Reading a reed',
    keys: ['takes', 'digits', 'fromOthers', 'sounds', 'letterKeys'],
    links: [['Rounds and their stations', 'change', hrefOf({ at: 'grids' })]],
  },
  { name: 'Words and numbers', keys: ['unit', 'decimal', 'pitchHz'], links: [] },
  { name: 'Look', keys: ['theme', 'textScale'], links: [] },
  {
    name: 'Scraping',
    keys: ['handedness', 'tipLast', 'marginMm'],
    links: [['Zones, floors and habits', 'change', hrefOf({ at: 'practice' })]],
  },
  {
    name: 'Sharing',
    keys: [],
    links: [
      ['Bring in readings or a library', 'a file, or paste', hrefOf({ at: 'bring-in' })],
      ['In a lesson', 'two reeds side by side', hrefOf({ at: 'lesson', reedIds: [] })],
      ['What the bench is built from', 'licences, in full', './licences.html'],
    ],
  },
];
/** What the search finds the keeping by, besides what stands there. */
const KEEPING = 'keeping and copies backup folder disk bin removed versions side by side set aside check all';

/** And the sharing. */
const SHARING = 'share this case sharing server address name password telephone class workshop guest';

/** The maker's choices grouped by what they are for, how the library is kept, copies of it, and the bin. */
@customElement('bench-setup')
export class SetupScreen extends BenchElement {
  static override styles = [
    controls,
    rows,
    boxes,
    css`
      .page {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--bench-space-5);
        padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
      }
      header {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3) var(--bench-space-6);
        align-items: center;
      }
      h1 {
        margin: 0;
        font: var(--bench-font-say);
      }
      .groups {
        columns: 3 340px;
        column-gap: 36px;
      }
      .groups > section {
        margin-bottom: var(--bench-space-5);
        break-inside: avoid;
      }
      .keeping {
        columns: 2 480px;
        column-gap: 36px;
      }
      .keeping > * {
        margin-bottom: var(--bench-space-5);
        break-inside: avoid;
      }
      .setting {
        border-top: 1px solid var(--bench-rule);
      }
      .setting > summary,
      .link {
        display: flex;
        gap: var(--bench-space-4);
        justify-content: space-between;
        align-items: center;
        min-height: var(--bench-touch);
      }
      .link {
        border-top: 1px solid var(--bench-rule);
      }
      .value {
        color: var(--bench-ink2);
        text-align: right;
      }
      select {
        width: 100%;
        margin-bottom: var(--bench-space-3);
      }
      input[type='search'] {
        width: min(320px, 100%);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  /** Raised by every copy that is made: what is said of the keeping is looked up anew. */
  @state() private copies = 0;
  @state() private sought = '';

  private handleChoice(key: keyof Choices, event: Event) {
    const at = Number((event.target as HTMLSelectElement).value);
    const options = ROWS.find((one) => one.key === key)!.options;
    void this.library.store?.choose({ [key]: options[at]![0] });
  }

  /** Whether every word that is sought stands in some words. */
  private finds(words: string): boolean {
    const all = words.toLowerCase();
    return this.sought.split(/\s+/).every((word) => all.includes(word));
  }

  override render() {
    if (!this.library.store) return nothing;
    const groups = GROUPS.flatMap((group) => this.renderGroup(group) ?? []);
    const keeping = this.finds(KEEPING);
    return html`<div class="page">
      <header>
        <h1>Setup</h1>
        <input
          type="search"
          aria-label="Search in Setup"
          placeholder="Search"
          @input=${(event: Event) => (this.sought = (event.target as HTMLInputElement).value.trim().toLowerCase())}
        />
        <span role="status"
          >${groups.length === 0 && !keeping && !this.finds(SHARING) ? 'Nothing here is called that.' : ''}</span
        >
      </header>
      ${keeping ? html`<bench-two-sides></bench-two-sides>` : nothing}
      <div class="groups">${groups}</div>
      <div class="keeping">
        ${this.finds(SHARING) ? html`<bench-share-case></bench-share-case>` : nothing}
        ${keeping ? this.renderKeeping() : nothing}
      </div>
    </div>`;
  }

  private renderGroup({ name, keys, links }: Group): TemplateResult | undefined {
    const settings = keys.flatMap((key) => {
      const { words, options } = ROWS.find((one) => one.key === key)!;
      const names = options.map(([, option]) => option).join(' ');
      return this.finds(`${name} ${words} ${names}`) ? [this.renderSetting(key, words, options)] : [];
    });
    const found = links.filter(([words, value]) => this.finds(`${name} ${words} ${value}`));
    if (settings.length + found.length === 0) return undefined;
    return html`<section>
      <h2>${name}</h2>
      ${settings}
      ${found.map(
        ([words, value, href]) =>
          html`<div class="link">
            <a href=${href} target=${href.startsWith('#') ? nothing : '_blank'}>${words}</a
            ><span class="value">${value}</span>
          </div>`,
      )}
    </section>`;
  }

  private renderSetting(
    key: keyof Choices,
    words: string,
    options: readonly (readonly [value: unknown, words: string])[],
  ) {
    const now = this.library.choices[key];
    return html`<details class="setting">
      <summary>
        <span>${words}</span><span class="value">${options.find(([value]) => value === now)?.[1]}</span>
      </summary>
      <select aria-label=${words} @change=${(event: Event) => this.handleChoice(key, event)}>
        ${options.map(([value, name], i) => html`<option value=${i} ?selected=${value === now}>${name}</option>`)}
      </select>
    </details>`;
  }

  private renderKeeping() {
    return html`<section @bench-copy-made=${() => this.copies++}>
        <h2>Keeping and copies</h2>
        <bench-keeping-state .copies=${this.copies}></bench-keeping-state>
        <bench-copies></bench-copies>
        <bench-check-all></bench-check-all>
      </section>
      <bench-not-chosen></bench-not-chosen>
      <bench-set-aside></bench-set-aside>
      <bench-set-aside-pieces></bench-set-aside-pieces>
      <bench-bin></bench-bin>`;
  }
}
