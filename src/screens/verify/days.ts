/** Days as a date field has them, in the tablet's own time zone, and the moments at which they begin. */

const two = (n: number): string => String(n).padStart(2, '0');

/** The day of a moment, so many days on; empty for none. */
export function dayOf(utcMs: number | null, daysOn: number): string {
  if (utcMs === null) return '';
  const d = new Date(utcMs);
  const day = new Date(d.getFullYear(), d.getMonth(), d.getDate() + daysOn);
  return `${String(day.getFullYear()).padStart(4, '0')}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

/** When a day begins, so many days on, UTC ms; null for a text that is no day. */
export function startOf(day: string, daysOn: number): number | null {
  const m = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  if (m === null) return null;
  const ms = new Date(Number(m[1]), Number(m[2]) - 1, Number(m[3]) + daysOn).getTime();
  return Number.isNaN(ms) ? null : ms;
}
