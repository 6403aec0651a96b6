import { html, nothing, type TemplateResult } from 'lit';
import * as z from 'zod';
import type { NumberFormat } from '../../src/words/format.ts';
import { hiddenIn } from '../../src/words/hidden-characters.ts';

/** One field of a form: the key that it fills, its words, and what is typed or chosen. */
export interface Field<Name extends string = string> {
  readonly name: Name;
  readonly words: string;
  readonly kind: 'number' | 'text' | 'long' | 'day' | 'choice' | 'scale' | 'steps' | 'moment';
  /** What may be chosen: stored value and words. */
  readonly options?: readonly (readonly [value: string, words: string])[];
}

type Values = Readonly<Record<string, unknown>>;

const TYPES: Readonly<Partial<Record<Field['kind'], string>>> = { day: 'date', moment: 'datetime-local' };
const SCALE = ['1', '2', '3', '4', '5'].map((step) => [step, step] as const);

/** Fields in their order, filled with what is known, numbers by the maker's decimal sign. Everything may be left blank. */
export function renderFields(
  fields: readonly Field[],
  values: Values = {},
  { decimal }: Pick<NumberFormat, 'decimal'> = { decimal: 'point' },
): TemplateResult[] {
  return fields.map((field) => {
    const value = values[field.name];
    const isNumber = typeof value === 'number';
    const written = isNumber || typeof value === 'string' ? String(value) : '';
    const text = isNumber && decimal === 'comma' ? written.replace('.', ',') : written;
    if (field.kind === 'steps') return steps(field, text);
    return html`<label class=${field.kind === 'long' ? 'wide' : ''}
      >${field.words}${control(field, text)}</label
    >`;
  });
}

/** A row of choices, all in sight: a digit takes the step of that number, Delete takes none. */
function steps({ name, words, options }: Field, text: string) {
  const isLong = (options?.length ?? 0) > 3;
  return html`<fieldset class=${isLong ? 'steps wide' : 'steps'} @keydown=${handleStepKey}>
    <legend>${words}</legend>
    <div class=${options ? 'named' : 'scale'}>
      ${[...(options ?? SCALE), ['', '–'] as const].map(
        ([value, title]) =>
          html`<label class=${value === '' ? 'none' : ''}
            ><input type="radio" name=${name} value=${value} .checked=${value === text} /><span
              aria-hidden=${value === '' ? 'true' : nothing}
              >${title}</span
            >${value === '' ? html`<span class="said">not tried</span>` : nothing}</label
          >`,
      )}
    </div>
  </fieldset>`;
}

function handleStepKey(event: KeyboardEvent) {
  const value = ['Delete', 'Backspace'].includes(event.key) ? '' : event.key;
  const radios = (event.currentTarget as HTMLElement).querySelectorAll<HTMLInputElement>('input');
  const taken = [...radios].find((radio) => radio.value === value);
  if (!taken) return;
  event.preventDefault();
  taken.focus();
  taken.click();
}

function control({ name, kind, options }: Field, text: string) {
  if (kind === 'long')
    return html`<textarea name=${name} rows="2" maxlength="4000" .value=${text}></textarea>`;
  if (kind === 'choice' || kind === 'scale')
    return html`<select name=${name}>
      <option value="">–</option>
      ${(options ?? SCALE).map(
        ([value, words]) => html`<option value=${value} ?selected=${value === text}>${words}</option>`,
      )}
    </select>`;
  return html`<input
    name=${name}
    type=${TYPES[kind] ?? 'text'}
    inputmode=${kind === 'number' ? 'decimal' : nothing}
    autocomplete="off"
    .value=${kind === 'moment' ? text.slice(0, 'YYYY-MM-DDTHH:MM'.length) : text}
  />`;
}

/** What was typed into a form, checked; or the first field that cannot be taken, with a sentence. */
export type Typed<S extends z.ZodObject> =
  | { readonly values: Partial<z.output<S>> }
  | { readonly problem: string; readonly name: string };

/** A number with point, comma or a true minus; NaN when it is none. */
export function typedNumber(text: string): number {
  return Number(text.trim().replace(',', '.').replace('\u2212', '-'));
}

/** Reads fields against the schema of what they fill. A blank field becomes undefined, which clears what was there. */
export function readFields<S extends z.ZodObject>(
  form: FormData,
  fields: readonly Field<Extract<keyof S['shape'], string>>[],
  schema: S,
): Typed<S> {
  const values: Record<string, unknown> = {};
  for (const { name, words, kind } of fields) {
    const text = String(form.get(name) ?? '').trim();
    const hidden = kind === 'text' ? hiddenIn(text) : [];
    if (hidden.length > 0)
      return {
        name,
        problem: `${words}: more stands here than can be seen (${hidden.join(', ')}). Type it anew.`,
      };
    const accepts = schema.shape[name] as z.ZodType;
    const isNumber = inner(accepts) instanceof z.ZodNumber;
    const value = text === '' ? undefined : isNumber ? typedNumber(text) : text;
    if (!accepts.safeParse(value).success) return { name, problem: sentence(words, text, accepts) };
    values[name] = value;
  }
  return { values: values as Partial<z.output<S>> };
}

const inner = (accepts: z.ZodType) => (accepts instanceof z.ZodOptional ? accepts.unwrap() : accepts);

function sentence(words: string, text: string, accepts: z.ZodType): string {
  if (text === '') return `${words}: this cannot be left blank.`;
  const number = inner(accepts);
  if (!(number instanceof z.ZodNumber)) return `${words}: “${text}” cannot be taken.`;
  if (Number.isNaN(typedNumber(text))) return `${words}: “${text}” is not a number.`;
  const { minValue, maxValue } = number;
  const whole = number.isInt && !Number.isInteger(typedNumber(text)) ? ' whole' : '';
  return `${words}: ${text} cannot be; it must be a${whole} number from ${minValue ?? 'any'} to ${maxValue ?? 'any'}, or blank.`;
}

/** Marks the field that cannot be taken, where the hand is left; without a name, clears all marks. */
export function showFault(form: HTMLFormElement, name?: string): HTMLElement | undefined {
  for (const element of form.querySelectorAll('[aria-invalid]')) element.removeAttribute('aria-invalid');
  const field = name === undefined ? undefined : form.elements.namedItem(name);
  if (!(field instanceof HTMLElement)) return undefined;
  field.setAttribute('aria-invalid', 'true');
  for (let fold = field.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null)
    fold.open = true;
  return field;
}

/** Marks the field that cannot be taken and brings the hand back to it; without a name, clears all marks. */
export function markField(form: HTMLFormElement, name?: string): void {
  showFault(form, name)?.focus();
}
