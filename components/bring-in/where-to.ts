import { html, nothing } from 'lit';
import type { Id } from '../../shared/ids.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';

/** The reeds that are there, and which passes each has. */
export interface Shelf {
  readonly reeds: readonly Pick<Reed, 'id' | 'label'>[];
  readonly passesOf: (reedId: Id) => readonly Pick<Pass, 'index'>[];
}

/** Where the maker wants the only pass of a file to go. */
export interface WhereTo {
  readonly label: string;
  readonly index: number;
}

const passesOf = ({ reeds, passesOf: of }: Shelf, label: string) => {
  const reed = reeds.find((one) => one.label === label);
  return reed ? of(reed.id) : [];
};

const nextIndex = (held: Shelf, label: string) => (passesOf(held, label).at(-1)?.index ?? -1) + 1;

/** Where the only pass of a file goes unless the maker says otherwise: a new pass where the file numbers none. */
export function usualPlace(
  reeds: readonly ReedDraft[],
  held: Shelf,
  isNumbered: boolean,
): WhereTo | undefined {
  const [reed] = reeds;
  const pass = reed?.passes[0];
  if (!reed || !pass || reeds.length > 1 || reed.passes.length > 1) return undefined;
  return { label: reed.label, index: isNumbered ? pass.index : nextIndex(held, reed.label) };
}

/** The reeds with the only pass put where it is to go. */
export function putAt(reeds: readonly ReedDraft[], to: WhereTo | undefined): readonly ReedDraft[] {
  if (!to) return reeds;
  return reeds.map(({ passes }) => ({
    label: to.label,
    passes: passes.map((pass) => ({ ...pass, index: to.index })),
  }));
}

/** The choice of reed and pass. */
export function whereToView(now: WhereTo, own: string, held: Shelf, choose: (to: WhereTo) => void) {
  const labels = [...new Set([own, ...held.reeds.map(({ label }) => label)])];
  const next = nextIndex(held, now.label);
  const there = passesOf(held, now.label).map(({ index }) => index);
  const free = Array.from({ length: next + 1 }, (_, i) => i).filter((i) => !there.includes(i));
  const indices = [...new Set([...free, now.index])].sort((a, b) => a - b);
  const isTaken = there.includes(now.index);
  return html`<div class="acts">
      <label
        >Reed<select
          @change=${(event: Event) => {
            const label = (event.target as HTMLSelectElement).value;
            choose({ label, index: nextIndex(held, label) });
          }}
        >
          ${labels.map((label) => html`<option ?selected=${label === now.label}>${label}</option>`)}
        </select></label
      >
      <label
        >Pass<select
          @change=${(event: Event) => choose({ ...now, index: Number((event.target as HTMLSelectElement).value) })}
        >
          ${indices.map((index) => html`<option value=${index} ?selected=${index === now.index}>${passWords(index, next)}</option>`)}
        </select></label
      >
    </div>
    ${isTaken ? html`<p>Pass ${now.index} of ${now.label} is there already and stays as it is. Choose another.</p>` : nothing}`;
}

function passWords(index: number, next: number): string {
  if (index !== next) return `pass ${index}`;
  return next === 0 ? 'its first pass, 0' : `a new pass ${index}, after pass ${next - 1}`;
}
