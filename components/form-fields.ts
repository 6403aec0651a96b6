import { hiddenIn, withoutHidden } from '../src/words/hidden-characters.ts';
import { typedNumber } from './forms/typed-form.ts';

/** A text field's number with point, comma or a true minus; undefined when it is blank, NaN when it is none. */
export function numberIn(form: FormData, name: string): number | undefined {
  const text = textIn(form, name);
  return text === undefined ? undefined : typedNumber(text);
}

/** A field's text without the blanks around it; undefined when there is none. */
export function textIn(form: FormData, name: string): string | undefined {
  return String(form.get(name) ?? '').trim() || undefined;
}

/** Leaves in a field what can be seen of its text, and asks; nothing where all of it can be seen. */
export function hiddenProblem(field: { value: string }): string {
  const text = field.value;
  if (hiddenIn(text).length === 0) return '';
  field.value = withoutHidden(text);
  return `What was typed has more than can be seen: ${hiddenIn(text).join(', ')}. It stands here without that now: keep it so, or type it anew.`;
}
