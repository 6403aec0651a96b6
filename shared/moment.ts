/** Local date and time with its offset from UTC, to the millisecond, as stored documents carry it. */
export function moment(date: Date): string {
  const offsetMin = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + offsetMin * 60_000).toISOString().slice(0, -1);
  const pad = (value: number) => String(Math.trunc(value)).padStart(2, '0');
  const size = Math.abs(offsetMin);
  return `${local}${offsetMin < 0 ? '-' : '+'}${pad(size / 60)}:${pad(size % 60)}`;
}

const DAY_MS = 86_400_000;

/** Number of the local day of a moment, or of a day, counted from 1 January 1970. */
export function dayNumber(at: string): number {
  return Math.round(Date.parse(`${at.slice(0, 10)}T00:00Z`) / DAY_MS);
}

/** The day with this number: `2026-11-29`. */
export function dayOf(number: number): string {
  return new Date(number * DAY_MS).toISOString().slice(0, 10);
}
