/** A day, or the day of a local moment, as the reader's own language writes it: `29 Nov 2026`. */
export function dayWords(at: string): string {
  return new Intl.DateTimeFormat(undefined, { dateStyle: 'medium' }).format(
    new Date(`${at.slice(0, 10)}T12:00`),
  );
}

/** The same without its year: `29 Nov`. */
export function shortDay(at: string): string {
  return new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short' }).format(
    new Date(`${at.slice(0, 10)}T12:00`),
  );
}

/** The day of the week, as it stands in a sentence: `Wednesday`. */
export function weekday(at: string): string {
  return new Intl.DateTimeFormat(undefined, { weekday: 'long' }).format(new Date(`${at.slice(0, 10)}T12:00`));
}
