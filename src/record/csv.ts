/** CSV as RFC 4180 has it: CRLF, quotes where they are needed, quotes doubled inside quotes. */

/**
 * A text as a field. A text that a spreadsheet would take for a formula gets an apostrophe in front, so that a
 * name or note can't compute anything on the reader's machine.
 */
export function csvText(text: string): string {
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}

/** A number as a field; nothing for a value that is not there. */
export const csvNumber = (value: number | null): string =>
  value === null || Number.isNaN(value) ? '' : String(value);

export const csvRow = (fields: readonly (string | number | null)[]): string =>
  `${fields.map((f) => (typeof f === 'string' ? csvText(f) : csvNumber(f))).join(',')}\r\n`;
