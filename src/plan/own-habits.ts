import type { HabitDocument } from '../../shared/habit.ts';
import { STARTING_HABITS, type Habit } from './habits.ts';

/** A row of the table as the maker has it. */
export interface OwnHabit extends Habit {
  readonly off?: true;
  /** The document in which the maker changed it; absent where it stands as the bench started it. */
  own?: HabitDocument;
}

const fromDocument = (own: HabitDocument, start?: Habit): OwnHabit => {
  const { key, symptom, lookAt, longScrape, shortScrape, action, risk, whoSays, contested, off } = own;
  const signs = own.signs ?? start?.signs;
  return {
    key,
    symptom,
    lookAt,
    action,
    own,
    ...(longScrape !== undefined && { longScrape }),
    ...(shortScrape !== undefined && { shortScrape }),
    ...(risk !== undefined && { risk }),
    ...(signs && { signs }),
    ...(whoSays !== undefined && { whoSays }),
    ...(contested && { contested }),
    ...(off && { off }),
  };
};

/** The starting table with the maker's rows in the place of those with their keys, and the others behind it. */
export function ownHabits(documents: readonly HabitDocument[]): readonly OwnHabit[] {
  const byKey = new Map(documents.map((document) => [document.key, document]));
  const starting = STARTING_HABITS.map((habit): OwnHabit => {
    const own = byKey.get(habit.key);
    return own ? fromDocument(own, habit) : habit;
  });
  const keys = new Set(STARTING_HABITS.map(({ key }) => key));
  return [...starting, ...documents.filter(({ key }) => !keys.has(key)).map((own) => fromDocument(own))];
}

/** Whose practice a row is. */
export function whoSays({ own, whoSays: said }: OwnHabit): string {
  if (said) return `So says ${said}.`;
  return own ? 'Your own practice.' : 'Common practice, no source.';
}
