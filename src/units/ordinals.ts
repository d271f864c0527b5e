/** The number of each name among those that are the same, from 1; null where it stands alone. */
export function ordinals(names: readonly string[]): readonly (number | null)[] {
  return names.map((name, i) =>
    names.filter((n) => n === name).length < 2
      ? null
      : names.slice(0, i + 1).filter((n) => n === name).length,
  );
}
