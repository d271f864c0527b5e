/**
 * An item of a checklist by its own words, or by the language's where it is one of the built-in list.
 * @param text null or empty: none of its own
 * @param unknown how one is told of which nothing is known but its id
 */
export const itemNamed = (
  id: string,
  text: string | null,
  builtIn: Readonly<Record<string, string>>,
  unknown: (id: string) => string,
): string => (text !== null && text !== '' ? text : Object.hasOwn(builtIn, id) ? builtIn[id]! : unknown(id));
