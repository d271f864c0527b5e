/** Sections of docs/validation.md, each between its own markers: one campaign writes its own and no other's. */

export interface Section {
  readonly name: string;
  readonly title: string;
  readonly markdown: string;
  /** File name under docs/figures → SVG. */
  readonly figures: Readonly<Record<string, string>>;
}

const HEAD = `# Validation

What the estimators do on simulated sites whose truth is known. \`npm run campaign\` makes this page again: the same
seeds give the same figures. The simulated world (src/rig and the scenarios in tests/campaign) shares no code with the
estimators and knows more than they do.
`;

/** The page with that section put in or replaced. */
export function withSection(page: string | null, section: Section): string {
  const begin = `<!-- ${section.name}: begin -->`;
  const end = `<!-- ${section.name}: end -->`;
  const body = `${begin}\n\n## ${section.title}\n\n${section.markdown.trim()}\n\n${end}`;
  const old = page ?? HEAD;
  const from = old.indexOf(begin);
  const to = old.indexOf(end);
  if (from >= 0 && to > from) return old.slice(0, from) + body + old.slice(to + end.length);
  return `${old.trimEnd()}\n\n${body}\n`;
}
