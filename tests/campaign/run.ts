/**
 * npm run campaign [-- fills|proofs|pairs|holds|sleeves|mixings|cups|samples|airtests|forgeries …] [--n SCALE]
 *
 * Runs the campaigns named (all without a name), prints their tables and writes docs/validation.md with its figures.
 * SCALE below 1 runs a share of each and writes nothing.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { AIRTESTS, airtestsChild, runAirtests } from './airtests-run.ts';
import { CUPS, cupsChild, runCups } from './cups-run.ts';
import { FILLS, fillsChild, runFills } from './fills-run.ts';
import { FORGERIES, forgeriesChild, runForgeries } from './forgeries-run.ts';
import { HOLDS, holdsChild, runHolds } from './holds-run.ts';
import { MIXINGS, mixingsChild, runMixings } from './mixings-run.ts';
import { PAIRS, pairsChild, runPairs } from './pairs-run.ts';
import { isChild } from './pool.ts';
import { PROOFS, proofsChild, runProofs } from './proofs-run.ts';
import { runSamples, SAMPLES, samplesChild } from './samples-run.ts';
import { type Section, withSection } from './sections.ts';
import { runSleeves, SLEEVES, sleevesChild } from './sleeves-run.ts';

const args = process.argv.slice(2);
const at = args.indexOf('--n');
const scale = at < 0 ? 1 : Number(args[at + 1]);
if (!(scale > 0 && scale <= 10)) {
  console.error('campaign: --n takes a number over 0 and up to 10');
  process.exit(2);
}
const named = args.filter((a, i) => !a.startsWith('--') && (at < 0 || i !== at + 1));
const CAMPAIGNS: Readonly<Record<string, (scale: number) => Promise<Section>>> = {
  [FILLS]: runFills,
  [PROOFS]: runProofs,
  [PAIRS]: runPairs,
  [HOLDS]: runHolds,
  [SLEEVES]: runSleeves,
  [MIXINGS]: runMixings,
  [CUPS]: runCups,
  [SAMPLES]: runSamples,
  [AIRTESTS]: runAirtests,
  [FORGERIES]: runForgeries,
};
for (const name of named)
  if (!(name in CAMPAIGNS)) {
    console.error(`campaign: no campaign named ${name}; there are ${Object.keys(CAMPAIGNS).join(', ')}`);
    process.exit(2);
  }

if (isChild(FILLS)) fillsChild(scale);
else if (isChild(PROOFS)) proofsChild(scale);
else if (isChild(PAIRS)) pairsChild(scale);
else if (isChild(HOLDS)) holdsChild(scale);
else if (isChild(SLEEVES)) sleevesChild(scale);
else if (isChild(MIXINGS)) mixingsChild(scale);
else if (isChild(CUPS)) cupsChild(scale);
else if (isChild(SAMPLES)) samplesChild(scale);
else if (isChild(AIRTESTS)) airtestsChild(scale);
else if (isChild(FORGERIES)) forgeriesChild();
else
  for (const [name, run] of Object.entries(CAMPAIGNS)) {
    if (named.length > 0 && !named.includes(name)) continue;
    const section = await run(scale);
    console.log(`\n${section.markdown}`);
    if (scale < 1) continue;
    mkdirSync('docs/figures', { recursive: true });
    for (const [file, svg] of Object.entries(section.figures)) writeFileSync(`docs/figures/${file}`, svg);
    let page: string | null = null;
    try {
      page = readFileSync('docs/validation.md', 'utf8');
    } catch {
      // The first campaign makes the page.
    }
    writeFileSync('docs/validation.md', withSection(page, section));
    console.log(`campaign: docs/validation.md, section ${name}`);
  }
