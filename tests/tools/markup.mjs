// No text becomes markup or a program in src/: what a file or a field says is set as text. Each exception is named here
// with its reason, and one that is not needed any more is a fault too.

import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

/** Ways by which a text becomes elements, or runs. */
const WAYS =
  /\b(?:innerHTML|outerHTML|insertAdjacentHTML|setHTMLUnsafe|parseHTMLUnsafe|createContextualFragment|parseFromString|srcdoc|dangerouslySetInnerHTML)\b|\bdocument\.write(?:ln)?\b|\beval\s*\(|\bnew\s+Function\b|\bset(?:Timeout|Interval)\s*\(\s*['"`]|['"`]javascript:/;

/** By file, the text of the line that may stand, and why. */
const EXCEPTIONS = {
  // A drawing of our own, without a text in it.
  'src/app/strip/Strip.tsx': 'innerHTML={BRAND_MARK}',
  // Parsed apart: nothing runs in a document that is made so, and what it holds was escaped where it was made.
  'src/screens/certificate/Certificate.tsx': "parseFromString(made.html.replace(style, ''), 'text/html')",
  'src/screens/archive/Compare.tsx': "parseFromString(made.svg, 'image/svg+xml')",
};

/** @returns {string[]} a line each */
export function markupFaults(files, read, exceptions = EXCEPTIONS) {
  const faults = [];
  const used = new Set();
  for (const file of files)
    read(file)
      .split('\n')
      .forEach((line, i) => {
        if (!WAYS.test(line) || /^\s*(?:\/\/|\*|\/\*)/.test(line)) return;
        const allowed = exceptions[file];
        if (allowed !== undefined && line.includes(allowed)) used.add(file);
        else faults.push(`${file}:${i + 1}: a text becomes markup or runs: ${line.trim()}`);
      });
  for (const file of Object.keys(exceptions))
    if (!used.has(file)) faults.push(`tests/tools/markup.mjs: ${file} needs its exception no more`);
  return faults;
}

if (process.argv[1]?.endsWith('markup.mjs')) {
  const files = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', 'src'], {
    encoding: 'utf8',
  })
    .split('\n')
    .filter((f) => /\.(?:ts|tsx|html)$/.test(f) && !/\.test\.tsx?$|\/testing\//.test(f));
  const faults = markupFaults(files, (f) => readFileSync(f, 'utf8'));
  for (const f of faults) console.error(f);
  console.log(
    faults.length === 0
      ? `markup: ${files.length} files, no text becomes markup`
      : `markup: ${faults.length} faults`,
  );
  process.exit(faults.length === 0 ? 0 : 1);
}
