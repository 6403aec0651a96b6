import type { HabitDocument } from '../../shared/habit.ts';
import { STARTING_HABITS, type Habit } from './habits.ts';

/** A row of the table as the maker has it. */
export interface OwnHabit extends Habit {
  readonly off?: true;
  /** The document in which the maker changed it; absent where it stands as the bench started it. */
  own?: HabitDocument;
}

const fromDocument = (own: HabitDocument): OwnHabit => {
  const { key, symptom, lookAt, longScrape, shortScrape, action, risk, contested, off } = own;
  return {
    key,
    symptom,
    lookAt,
    action,
    own,
    ...(longScrape !== undefined && { longScrape }),
    ...(shortScrape !== undefined && { shortScrape }),
    ...(risk !== undefined && { risk }),
    ...(contested && { contested }),
    ...(off && { off }),
  };
};

/** The starting table with the maker's rows in the place of those with their keys, and the others behind it. */
export function ownHabits(documents: readonly HabitDocument[]): readonly OwnHabit[] {
  const byKey = new Map(documents.map((document) => [document.key, document]));
  const starting = STARTING_HABITS.map((habit): OwnHabit => {
    const own = byKey.get(habit.key);
    return own ? fromDocument(own) : habit;
  });
  const keys = new Set(STARTING_HABITS.map(({ key }) => key));
  return [...starting, ...documents.filter(({ key }) => !keys.has(key)).map(fromDocument)];
}
