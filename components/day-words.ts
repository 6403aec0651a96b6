/** A day, or the day of a local moment, as the reader's own language writes it: `29 Nov 2026`. */
export function dayWords(at: string): string {
  return new Intl.DateTimeFormat(undefined, { dateStyle: 'medium' }).format(
    new Date(`${at.slice(0, 10)}T12:00`),
  );
}
