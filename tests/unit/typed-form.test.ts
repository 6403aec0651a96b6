import { describe, expect, it } from 'vitest';
import { lotSchema } from '../../shared/cane.ts';
import { trialSchema } from '../../shared/trial.ts';
import { numberIn } from '../../components/form-fields.ts';
import { readFields, typedNumber } from '../../components/forms/typed-form.ts';
import { noteText, readNote, readNotes } from '../../components/notes/trial-notes.ts';

function form(values: Readonly<Record<string, string>>): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries(values)) data.append(name, value);
  return data;
}
const FIELDS = [
  { name: 'code', words: 'Letters', kind: 'text' },
  { name: 'diameterMinMm', words: 'Tube from, mm', kind: 'number' },
  { name: 'grain', words: 'Grain', kind: 'scale' },
  { name: 'harvestYear', words: 'Year', kind: 'number' },
] as const;
const read = (values: Readonly<Record<string, string>>) =>
  readFields(form({ code: 'K', ...values }), FIELDS, lotSchema);

describe('a typed form', () => {
  it('takes points and commas, and clears what is blank', () => {
    expect(read({ diameterMinMm: ' 10,25 ', grain: '4' })).toEqual({
      values: { code: 'K', diameterMinMm: 10.25, grain: 4, harvestYear: undefined },
    });
    expect(typedNumber('−3,5')).toBe(-3.5);
    expect(numberIn(form({ air: ' −3,5 ' }), 'air')).toBe(-3.5);
    expect(numberIn(form({ air: ' ' }), 'air')).toBe(undefined);
  });

  it('names the first field that cannot be taken, with its bounds', () => {
    expect(read({ diameterMinMm: '102' })).toEqual({
      name: 'diameterMinMm',
      problem: 'Tube from, mm: 102 cannot be; it must be a number from 6 to 20, or blank.',
    });
    expect(read({ diameterMinMm: 'ten' })).toMatchObject({
      problem: 'Tube from, mm: “ten” is not a number.',
    });
    expect(read({ harvestYear: '2020.5' })).toMatchObject({
      problem: expect.stringContaining('a whole number from 1900'),
    });
    expect(read({ code: '' })).toEqual({ name: 'code', problem: 'Letters: this cannot be left blank.' });
    expect(read({ code: 'much too long' })).toMatchObject({ name: 'code' });
    expect(read({ code: 'K\u202eL' })).toEqual({
      name: 'code',
      problem:
        'Letters: more stands here than can be seen (a mark that turns the direction of writing). Type it anew.',
    });
  });
});

describe('notes and their cents', () => {
  it('are read from one line, with either decimal sign and either minus', () => {
    expect(readNotes('A4 +2, D5 -3; g5 −3,5')).toEqual([
      { note: 'A4', cents: 2 },
      { note: 'D5', cents: -3 },
      { note: 'G5', cents: -3.5 },
    ]);
    expect(readNotes('F#5 1,Bb4 0')).toEqual([
      { note: 'F#5', cents: 1 },
      { note: 'Bb4', cents: 0 },
    ]);
    expect(readNotes('  ')).toEqual([]);
    expect(trialSchema.shape.pitchCents.safeParse(readNotes('A4 +2')).success).toBe(true);
  });

  it('are refused with a sentence', () => {
    expect(readNotes('A4')).toContain('“A4”');
    expect(readNotes('A4 300')).toContain('another note');
    expect(readNotes('H4 3')).toContain('write a note');
  });
});

describe('a note and its cents in one field', () => {
  it('are read with or without octave and cents, and written as they are read', () => {
    expect(readNote(' c6 −10,5 ')).toEqual({ note: 'C6', cents: -10.5 });
    expect(readNote('Bb4')).toEqual({ note: 'Bb4' });
    expect(readNote('B -30')).toEqual({ note: 'B', cents: -30 });
    expect(readNote('C5 -201')).toMatch(/another note/);
    expect(readNote('high')).toMatch(/as C5 \+4/);
    expect(noteText({ note: 'C6', cents: -10.5 }, { decimal: 'comma' })).toBe('C6 −10,5');
    expect(noteText({ cents: 4 }, { decimal: 'point' })).toBe('+4');
    expect(noteText({ note: 'B' }, { decimal: 'point' })).toBe('B');
  });
});
