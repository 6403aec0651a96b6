/** Local date and time with its offset from UTC, to the millisecond, as stored documents carry it. */
export function moment(date: Date): string {
  const offsetMin = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + offsetMin * 60_000).toISOString().slice(0, -1);
  const pad = (value: number) => String(Math.trunc(value)).padStart(2, '0');
  const size = Math.abs(offsetMin);
  return `${local}${offsetMin < 0 ? '-' : '+'}${pad(size / 60)}:${pad(size % 60)}`;
}
