import { html, nothing, type TemplateResult } from 'lit';
import * as z from 'zod';
import type { Writing } from '../../src/words/format.ts';

/** One field of a form: the key that it fills, its words, and what is typed or chosen. */
export interface Field<Name extends string = string> {
  readonly name: Name;
  readonly words: string;
  readonly kind: 'number' | 'text' | 'long' | 'day' | 'choice' | 'scale';
  /** What may be chosen: stored value and words. */
  readonly options?: readonly (readonly [value: string, words: string])[];
}

type Values = Readonly<Record<string, unknown>>;

const SCALE = ['1', '2', '3', '4', '5'].map((step) => [step, step] as const);

/** Fields in their order, filled with what is known, numbers by the maker's decimal sign. Everything may be left blank. */
export function renderFields(
  fields: readonly Field[],
  values: Values = {},
  { decimal }: Pick<Writing, 'decimal'> = { decimal: 'point' },
): TemplateResult[] {
  return fields.map((field) => {
    const value = values[field.name];
    const isNumber = typeof value === 'number';
    const written = isNumber || typeof value === 'string' ? String(value) : '';
    const text = isNumber && decimal === 'comma' ? written.replace('.', ',') : written;
    return html`<label class=${field.kind === 'long' ? 'wide' : ''}
      >${field.words}${control(field, text)}</label
    >`;
  });
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
    type=${kind === 'day' ? 'date' : 'text'}
    inputmode=${kind === 'number' ? 'decimal' : nothing}
    autocomplete="off"
    .value=${text}
  />`;
}

/** What was typed into a form, checked; or the first field that cannot be taken, with a sentence. */
export type Typed<S extends z.ZodObject> =
  { readonly values: Partial<z.output<S>> } | { readonly problem: string; readonly name: string };

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
    const value = text === '' ? undefined : kind === 'number' || kind === 'scale' ? typedNumber(text) : text;
    const accepts = schema.shape[name] as z.ZodType;
    if (!accepts.safeParse(value).success) return { name, problem: sentence(words, text, accepts) };
    values[name] = value;
  }
  return { values: values as Partial<z.output<S>> };
}

function sentence(words: string, text: string, accepts: z.ZodType): string {
  if (text === '') return `${words}: this cannot be left blank.`;
  const inner = accepts instanceof z.ZodOptional ? accepts.unwrap() : accepts;
  if (!(inner instanceof z.ZodNumber)) return `${words}: “${text}” cannot be taken.`;
  if (Number.isNaN(typedNumber(text))) return `${words}: “${text}” is not a number.`;
  const { minValue, maxValue } = inner;
  const whole = inner.isInt && !Number.isInteger(typedNumber(text)) ? ' whole' : '';
  return `${words}: ${text} cannot be; it must be a${whole} number from ${minValue ?? 'any'} to ${maxValue ?? 'any'}, or blank.`;
}

/** Marks the field that cannot be taken and brings the hand back to it; without a name, clears all marks. */
export function markField(form: HTMLFormElement, name?: string): void {
  for (const element of form.querySelectorAll('[aria-invalid]')) element.removeAttribute('aria-invalid');
  const field = name === undefined ? undefined : form.elements.namedItem(name);
  if (field instanceof HTMLElement) {
    field.setAttribute('aria-invalid', 'true');
    field.focus();
  }
}
