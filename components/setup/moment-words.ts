/** `25 Nov 2026, 14:02`, as the clock stood where it was written. */
export function momentWords(at: string): string {
  const day = new Date(`${at.slice(0, 10)}T00:00:00Z`);
  const date = day.toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    timeZone: 'UTC',
  });
  return `${date}, ${at.slice(11, 16)}`;
}
