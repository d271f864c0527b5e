/** The last word of what is cut goes with the rest, unless it is longer than this. */
const LONGEST_WORD = 24;

/** A text of at most so many letters; a longer one ends behind a word and in dots, so that nobody takes its head for the whole. */
export function cutAt(text: string, most: number): string {
  const points = [...text];
  if (points.length <= most) return text;
  const head = points.slice(0, most).join('');
  const words =
    points[most] === ' ' ? head : head.replace(new RegExp(`(?<=\\S)\\s+\\S{0,${LONGEST_WORD}}$`), '');
  return `${words.trimEnd()} …`;
}
