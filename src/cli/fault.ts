/** Bad input: one line that says what and where. The command ends with exit code 2. */
export class InputFault extends Error {
  override readonly name = 'InputFault';
}

/** Makes a fault of a text without line breaks, so that it stays one line whatever was in the input. */
export function fault(text: string): InputFault {
  return new InputFault(text.replace(/\s+/g, ' ').slice(0, 500));
}

/** What stands in the input, short and on one line. */
export function shown(text: string): string {
  const one = JSON.stringify(text.slice(0, 40));
  return text.length > 40 ? `${one.slice(0, -1)}…"` : one;
}
