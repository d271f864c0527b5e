/**
 * The next value with every part of the one before that is the same still being that very part. The engine sends a whole
 * picture thirty times a second, in which little changes: what is made of a part that stays is then not made again.
 * For plain data alone: objects, arrays, numbers, texts.
 * @returns `before` itself where nothing differs
 */
export function sharedParts<T>(before: unknown, next: T): T {
  if (Object.is(before, next)) return next;
  if (typeof next !== 'object' || next === null || typeof before !== 'object' || before === null) return next;
  if (Array.isArray(next) !== Array.isArray(before)) return next;
  if (Array.isArray(next) && Array.isArray(before)) {
    const parts = next.map((part, i) => sharedParts(before[i], part));
    const isSame = parts.length === before.length && parts.every((part, i) => Object.is(part, before[i]));
    return (isSame ? before : parts) as T;
  }
  const old = before as Readonly<Record<string, unknown>>;
  const keys = Object.keys(next);
  const parts: Record<string, unknown> = {};
  let isSame = keys.length === Object.keys(old).length;
  for (const key of keys) {
    const part = sharedParts(old[key], (next as Readonly<Record<string, unknown>>)[key]);
    parts[key] = part;
    if (!Object.is(part, old[key]) || !Object.hasOwn(old, key)) isSame = false;
  }
  return (isSame ? before : parts) as T;
}
