import type { Finding } from './findings.ts';

/** One finding a file is enough; a later one may know the place. */
export function named(findings: Finding[], file: string, offset: number | null): void {
  const at = findings.findIndex((f) => f.f === 'file' && f.file === file);
  if (at < 0) findings.push({ f: 'file', file, offset });
  else if (offset !== null) findings[at] = { f: 'file', file, offset };
}
