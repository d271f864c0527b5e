/** What tells a practice certificate from a job's at any distance: stripes, a mark across each page, and a sentence. */
import type { RecordView } from '../../record/job-file.ts';
import type { Manifest } from '../../record/manifest.ts';
import type { Catalogue } from '../../words/catalogue.ts';
import { debriefFor, type Said, saidOf } from '../debrief.ts';
import { escapeXml as esc } from '../escape.ts';

const WIDE = 728;
const HIGH = 14;
const BAR = 14;

/** Barrier stripes as one path: drawn, so that a print has them without its backgrounds. */
function stripes(): string {
  let path = '';
  for (let x = -HIGH; x < WIDE; x += 2 * BAR)
    path += `M${x} ${HIGH}l${HIGH} ${-HIGH}h${BAR}l${-HIGH} ${HIGH}z`;
  return `<svg class="stripes" viewBox="0 0 ${WIDE} ${HIGH}" preserveAspectRatio="none" aria-hidden="true"><path d="${path}"/></svg>`;
}

const LOOK = `
.certificate .leaf { position: relative; }
.certificate .stripes { display: block; width: 100%; height: 3.5mm; margin: 0 0 2.5mm; fill: #000; }
.certificate .watermark { position: absolute; top: 105mm; left: 0; right: 0; margin: 0; text-align: center; font-size: 76pt; font-weight: 700; letter-spacing: .06em; color: rgb(0 0 0 / .1); transform: rotate(-32deg); pointer-events: none; overflow-wrap: normal; white-space: nowrap; }
.certificate .practice-what { margin: 2mm 0 0; }
@media screen and (max-width: 600px) { .certificate .watermark { font-size: 40pt; } }
`;

export interface PracticeMarks {
  /** Beside the look of every certificate. */
  readonly look: string;
  /** At the head of each page. */
  readonly leaf: string;
  /** Under the title. */
  readonly note: string;
}

/** What was drilled, by whom, and how it ended. */
function drilled(manifest: Manifest, words: Catalogue, said: Said): string {
  const { pages, events, setups, end } = manifest;
  const told = debriefFor(said, {
    events,
    setups: setups.map((s) => s.setup),
    firstUs: pages.firstSampleUs ?? pages.firstUs ?? 0,
    lastUs: pages.lastUs,
    ended: end === 'ended',
  });
  if (told === null) return '';
  const { DRILL, DEBRIEF, OUTCOME, checkText } = words.practice;
  const who = told.trainee === '' ? '' : `<p>${esc(DEBRIEF.playedBy(told.trainee))}</p>`;
  if (told.drill === null || told.outcome === null) return who;
  const { title, goal } = DRILL[told.drill];
  const checks = told.checks.map((c) => `<li>${esc(checkText(c))}</li>`).join('');
  return `${who}<p><strong>${esc(title)}${words.ui.UI.colon} ${esc(OUTCOME[told.outcome].word)}</strong></p><p>${esc(goal)}</p>${checks === '' ? '' : `<ul>${checks}</ul>`}`;
}

/** null: the record is a job's. */
export function practiceMarks(
  manifest: Manifest,
  words: Catalogue,
  played: RecordView['played'],
): PracticeMarks | null {
  if (!manifest.practice) return null;
  const { practice: P } = words.certificate.CERTIFICATE;
  return {
    look: LOOK,
    leaf: `${stripes()}<p class="watermark" aria-hidden="true">${esc(P.mark)}</p>`,
    note: `<div class="practice-what"><p><strong>${esc(P.what)}</strong></p>${drilled(manifest, words, saidOf(played))}</div>`,
  };
}
