/**
 * The certificate as one self-contained page of HTML, made from the sealed record alone: the same record gives the
 * same bytes. Every text that came from outside is escaped here, in one place.
 */
import { encode } from 'uqr';
import type { SignedAs } from '../../job/enclosed.ts';
import { groupFingerprint } from '../../record/fingerprints.ts';
import type { ExtraFiles, RecordView } from '../../record/job-file.ts';
import type { Addition } from '../../record/seal.ts';
import type { Witnessed } from '../../record/witness/check-proof.ts';
import type { Catalogue, CatalogueOf } from '../../words/catalogue.ts';
import type { RunClock } from '../../words/create-format.ts';
import { accountOf } from '../account.ts';
import { cutAt } from '../cut.ts';
import { escapeXml as esc } from '../escape.ts';
import type { StatusLine } from '../messages.ts';
import { lastLimited, numbersOf } from '../numbers.ts';
import type { Values } from '../open.ts';
import { operatorsOf } from '../operators-told.ts';
import { bundleIn } from '../papers.ts';
import { PAPER, recordPicture } from '../pictures.ts';
import { checklistLeaves } from './checklist.ts';
import { firmHead, handSvg, photoLeaves, presentText } from './enclosed.ts';
import { exceptionsOf, type Seen } from './exceptions.ts';
import {
  figures,
  firstRows,
  heldRows,
  howRows,
  pipeText,
  type Row,
  repairRows,
  sensorRows,
  utcText,
} from './facts.ts';
import { practiceMarks } from './practice.ts';
import { STYLE } from './style.ts';

export const CERTIFICATE_FILE = 'certificate.html';

/**
 * Letters of exceptions that fit the second page beside names of the usual length; what is left out is counted, and
 * stands in the record.
 */
const MOST_LETTERS = 1500;
const LEAST_LETTERS = 240;
/** What a line costs besides its letters, and a row's usual length. */
const LINE_LETTERS = 30;
const ROW_LETTERS = 60;
const MOST_TEXT = 300;

/** Three pages: what one looks for first; everything that the record shows; what it proves, how to verify it, and who signs. */
const PAGES = 3;
/** Exceptions on the first page, and letters of a text there. */
const MOST_FIRST = 3;
/** Initials that stand beside the crew's names; each event names its own in the record. */
const MOST_OPERATORS = 6;
const MOST_FIRST_TEXT = 105;

/** The program's mark. */
const LOGO =
  '<svg class="logo" viewBox="0 0 26 26" aria-hidden="true"><path d="M2 1h22v12h-3.500V5h-15v8H2z"/><path d="M8 9h10v3.500H8zM8 14h10v4.500H8zM8 20h10v5H8z"/></svg>';

const shorter = (text: string): string => cutAt(text, MOST_FIRST_TEXT);

/** When, who, with what: one line under the job. */
function firstLine(seen: Seen): string {
  const { CERTIFICATE: C } = seen.words.certificate;
  const { manifest, bundle } = seen;
  const packer = bundle?.packer?.document.name ?? '';
  const site = bundle?.job.site.trim() ?? '';
  const { firstUs } = seen;
  return [
    utcText(seen.words, manifest.openedUtcMs),
    C.runLong(seen.words.format.duration(Math.max(0, manifest.pages.lastUs - firstUs) / 1e6)),
    site === '' ? C.siteNot : shorter(site),
    shorter(pipeText(seen) ?? C.pipeNot),
    bundle?.job.crew ?? '',
    packer === '' ? '' : shorter(packer),
  ]
    .filter((t) => t.trim() !== '')
    .join(' · ');
}

const cut = (text: string): string => cutAt(text, MOST_TEXT);

/** The weightiest come first, so that it is the lightest that give way; long names above leave room for fewer. */
function fitting(exceptions: readonly string[], rows: readonly Row[], sensors: number): readonly string[] {
  const over = rows.reduce((t, r) => t + Math.max(0, Math.min(r.text.length, MOST_TEXT) - ROW_LETTERS), 0);
  let left = Math.max(LEAST_LETTERS, MOST_LETTERS - 3 * over - Math.max(0, sensors - 4) * ROW_LETTERS);
  const end = exceptions.findIndex((e) => {
    left -= Math.min(e.length, MOST_TEXT) + LINE_LETTERS;
    return left < 0;
  });
  return end < 0 ? exceptions : exceptions.slice(0, end);
}

/** Serial and batch numbers keep together: broken at a hyphen, a print gives them back without it. */
const lettered = (text: string): string =>
  cut(text)
    .split(/(\s+)/)
    .map((w) => (w.includes('-') && w.length <= 24 ? `<span class="whole">${esc(w)}</span>` : esc(w)))
    .join('');

const table = (rows: readonly Row[]): string =>
  `<table><tbody>${rows
    .map((r) => `<tr><th scope="row">${esc(r.name)}</th><td>${lettered(r.text)}</td></tr>`)
    .join('')}</tbody></table>`;

/** The code as one path of unit squares, on its own white ground. */
export function qrSvg(text: string, label: string): string {
  const { size, data } = encode(text, { ecc: 'M', border: 4 });
  let path = '';
  for (const [y, row] of data.entries()) {
    for (let x = 0; x < row.length; x++) {
      if (!row[x]) continue;
      let w = 1;
      while (row[x + w]) w++;
      path += `M${x} ${y}h${w}v1h-${w}z`;
      x += w;
    }
  }
  return `<svg class="qr" viewBox="0 0 ${size} ${size}" role="img" aria-label="${esc(label)}" shape-rendering="crispEdges"><rect width="${size}" height="${size}" fill="#fff"/><path d="${path}" fill="#000"/></svg>`;
}

/** What the code holds: enough to tell the manifest by, and where the app verifies it when that is known. */
export const qrText = ({
  manifest: { page, schema },
  manifestSha256,
}: Pick<RecordView, 'manifest' | 'manifestSha256'>): string =>
  page === null ? `${schema} sha256:${manifestSha256}` : `${page}#/verify/${manifestSha256}`;

/** Who bounds when it was made, a line each; names are for whoever knows the keys. */
function witnessLines(witnessed: Witnessed | null, words: Catalogue): readonly string[] {
  const { CERTIFICATE: C } = words.certificate;
  const { notBefore = [], notAfter = [] } = witnessed ?? {};
  if (notBefore.length + notAfter.length === 0) return [C.noWitness];
  const key = (fingerprint: string): string => groupFingerprint(fingerprint.slice(0, 16));
  return [
    ...notBefore.map((b) => C.openedAfter(utcText(words, b.utcMs), key(b.fingerprint ?? ''))),
    ...notAfter.map((b) =>
      b.fingerprint === null
        ? C.stampedBefore(utcText(words, b.utcMs))
        : C.sealedBefore(utcText(words, b.utcMs), key(b.fingerprint)),
    ),
  ];
}

/** What was signed after the sealing: the page of the sealed record itself knows of none. */
const added = (additions: readonly Addition[], words: Catalogue): string => {
  const last = additions.at(-1);
  if (last === undefined) return '';
  const { text } = (typeof last.body === 'object' && last.body !== null ? last.body : {}) as {
    text?: unknown;
  };
  const said = typeof text === 'string' ? text : JSON.stringify(last.body);
  return `<p>${esc(words.certificate.CERTIFICATE.added(additions.length))} ${lettered(shorter(said))}</p>`;
};

/** What a person decided about it, which no seal covers. */
const decided = (decision: StatusLine | null, words: Catalogue): string => {
  if (decision === null || decision.status === 'open') return '';
  const { CERTIFICATE: C } = words.certificate;
  const { by, reason, utcMs, status } = decision;
  const said = C.decided[status](by, utcText(words, utcMs));
  return `<p>${lettered(shorter(said))}${reason.trim() === '' ? '' : ` ${lettered(shorter(C.because(reason)))}`} ${esc(C.decisionNote)}</p>`;
};

/** Of all times on the page one clock, so that it is the same wherever it is made. */
const utcClock =
  ({ manifest, firstUs, words }: Seen): RunClock =>
  (s) => {
    const { CERTIFICATE: C } = words.certificate;
    const opened = manifest.openedUtcMs;
    if (opened === null) return C.runTime(words.format.stopwatch(s));
    return C.utcTime(new Date(opened + firstUs / 1000 + s * 1000).toISOString().slice(11, 16));
  };

/**
 * @param additions known where the page is made; the record file's own page is of what was sealed alone
 * @param decision the last one of this tablet, beside the record
 */
export function certificatePage(
  { manifest, manifestSha256, witnessed, photos, played }: RecordView,
  values: Values,
  words: Catalogue,
  additions: readonly Addition[] = [],
  decision: StatusLine | null = null,
): string {
  const { CERTIFICATE: C } = words.certificate;
  const bundle = bundleIn(manifest.job);
  const { pages } = manifest;
  const firstUs = pages.firstSampleUs ?? pages.firstUs ?? 0;
  const setups = manifest.setups.map((s) => s.setup);
  const setup = lastLimited(setups);
  const seen: Seen = { manifest, bundle, setup, peakBar: values.peakBar, firstUs, words };
  const numbers = numbersOf(manifest.events, firstUs, pages.lastUs, values, setup);
  const lastS = Math.max(1, (pages.lastUs - firstUs) / 1e6);
  const trace = recordPicture(
    { events: manifest.events, setups, firstUs, lastS },
    values,
    { fromS: 0, toS: lastS, width: 720, height: 205, title: C.trace, ink: PAPER },
    words,
  );
  const exceptions = exceptionsOf(seen);
  const title = bundle?.job.title ?? manifest.runId;
  const practice = practiceMarks(manifest, words, played);
  const kind = practice === null ? C.title : C.practice.title;
  const sensors = sensorRows(seen);
  const people = presentText(manifest.enclosed ?? null);
  const operators = operatorsOf(manifest.events);
  const crew =
    operators.length === 0 ? people : C.atComputer(people, operators.slice(0, MOST_OPERATORS).join(', '));
  const present = crew === '' ? [] : [{ name: C.present, text: crew }];
  const [repair, how, held] = [[...repairRows(seen), ...present], howRows(seen), heldRows(seen, numbers)];
  const shown = fitting(exceptions, [...repair, ...how, ...held], sensors.length);
  const rest = exceptions.length - shown.length;
  const account = accountOf(manifest.events, firstUs, pages.lastUs, values.peakBar, setup);
  const acceptance = decided(decision, words);
  // An addition takes the room of one of them, a decision with its reason that of two.
  const besides = (practice === null ? 0 : 1) + (additions.length > 0 ? 1 : 0) + (acceptance === '' ? 0 : 2);
  const first = exceptions.slice(0, MOST_FIRST - besides);
  const more = exceptions.length - first.length;
  const pictures = photoLeaves(manifest.enclosed ?? null, photos, words);
  const leaves = [...checklistLeaves(seen), ...pictures];
  const head = (page: number): string =>
    `${practice?.leaf ?? ''}<p class="head"><span class="brand">${LOGO}${esc(words.ui.UI.app)}</span>${firmHead(manifest.enclosed ?? null)}<span>${esc(C.record(manifest.runId))} · ${esc(C.pageOf(page, PAGES + leaves.length))}</span></p>`;
  const sign = (who: string, as: SignedAs | null): string => {
    const hand = manifest.enclosed?.signed.findLast((s) => s.as === as);
    const said =
      hand === undefined ? esc(C.signLine) : lettered(C.signedBy(hand.name, utcText(words, hand.utcMs)));
    return `<div class="sign"><div class="rule">${hand === undefined ? '' : handSvg(hand)}</div><p><strong>${esc(who)}</strong><br>${said}</p></div>`;
  };
  const body = `<main><article class="certificate">
<div class="leaf">
${head(1)}
<header><p class="kind">${esc(kind)}</p><h1>${esc(cut(title))}</h1><p>${esc(firstLine(seen))}</p></header>${practice?.note ?? ''}
<section class="boxed" aria-label="${esc(words.account.ACCOUNT.label)}"><p class="account-line">${esc(words.account.accountText(account, numbers, utcClock(seen)).join(' '))}</p><p>${esc(C.witness)}${words.ui.UI.colon} ${esc(words.account.witnessText(account))}.</p>${
    first.length === 0
      ? `<p>${esc(C.noException)}</p>`
      : `<p>${esc(C.exceptionsAre(exceptions.length))}</p><ul class="weightiest">${first.map((e) => `<li>${lettered(shorter(e))}</li>`).join('')}${more > 0 ? `<li>${esc(C.allOnNext(more))}</li>` : ''}</ul>`
  }${acceptance}${added(additions, words)}</section>
<dl class="four">${figures(seen, numbers)
    .map((f) => `<div><dd>${esc(f.value)}</dd><dt>${esc(f.label)}</dt></div>`)
    .join('')}</dl>
<section aria-labelledby="c-trace"><h2 id="c-trace">${esc(C.trace)}</h2><figure>${trace}<figcaption class="small">${esc(C.traceNote)}</figcaption></figure></section>
<dl class="eight">${firstRows(seen, account)
    .map((r) => `<div><dt>${esc(r.name)}</dt><dd>${lettered(shorter(r.text))}</dd></div>`)
    .join('')}</dl>
<footer class="foot"><p><strong>${esc(C.doesNot)}${words.ui.UI.colon}</strong> ${esc(C.doesNotShort)}</p><p class="small">${esc(C.fingerprintLabel)}</p><p class="mono">${esc(groupFingerprint(manifestSha256))}</p></footer>
</div>
<div class="leaf">
${head(2)}
<h2 class="big">${esc(C.details)}</h2>
<p class="small">${esc(C.lead)}</p>
<div class="two">
<section aria-labelledby="c-repair"><h2 id="c-repair">${esc(C.repair)}</h2>${table(repair)}</section>
<section aria-labelledby="c-how"><h2 id="c-how">${esc(C.how)}</h2>${table(how)}</section>
</div>
<section aria-labelledby="c-held"><h2 id="c-held">${esc(C.held)}</h2>${table(held)}</section>
<section aria-labelledby="c-sensors"><h2 id="c-sensors">${esc(C.sensors)}</h2><table class="grid"><thead><tr><th scope="col">${esc(C.sensor)}</th><th scope="col">${esc(C.place)}</th><th scope="col">${esc(C.calibration)}</th></tr></thead><tbody>${sensors
    .map(
      (s) =>
        `<tr><td>${lettered(s.sensor)}</td><td>${esc(s.place)}</td><td>${lettered(s.calibration)}</td></tr>`,
    )
    .join('')}</tbody></table><p class="small">${esc(C.asTyped)}</p></section>
<section class="exceptions" aria-labelledby="c-exceptions"><h2 id="c-exceptions">${esc(C.exceptions)}</h2>${
    shown.length === 0
      ? `<p>${esc(C.noExceptions)}</p>`
      : `<ul>${shown.map((e) => `<li>${lettered(e)}</li>`).join('')}${rest > 0 ? `<li>${esc(C.moreExceptions(rest))}</li>` : ''}</ul>`
  }</section>
</div>
<div class="leaf">
${head(3)}
<section class="keep" aria-labelledby="c-not"><h2 id="c-not">${esc(C.doesNot)}</h2><p>${esc(C.doesNotText)}</p></section>
<section class="check keep" aria-labelledby="c-check"><div><h2 id="c-check">${esc(C.check)}</h2><p>${esc(C.checkText)}${manifest.page === null ? '' : ` ${esc(C.codeOpens(manifest.page))}`}</p><p class="mono">${esc(groupFingerprint(manifestSha256))}</p><p>${esc(C.key)}</p><p class="mono">${esc(groupFingerprint(manifest.signer.fingerprint))}</p><p class="small">${esc(C.made(manifest.runId, manifest.software, String(manifest.engine), utcText(words, manifest.sealedUtcMs), manifest.sealedBy))}</p></div>${qrSvg(qrText({ manifest, manifestSha256 }), C.qrLabel)}</section>
<section class="keep" aria-labelledby="c-when"><h2 id="c-when">${esc(C.when)}</h2><ul>${witnessLines(
    witnessed,
    words,
  )
    .map((l) => `<li>${lettered(l)}</li>`)
    .join('')}</ul></section>
<section class="keep" aria-labelledby="c-sign"><h2 id="c-sign">${esc(C.signatures)}</h2><div class="signs">${practice === null ? `${sign(C.signCrew, 'crew')}${sign(C.signFirm, null)}${sign(C.signClient, 'client')}` : `${sign(C.practice.trainee, null)}${sign(C.practice.trainer, null)}`}</div></section>
</div>
${leaves.map((leaf, i) => `<div class="leaf">\n${head(PAGES + 1 + i)}\n${leaf}\n</div>\n`).join('')}</article></main>`;
  return `<!doctype html>
<html lang="${esc(words.wording.language)}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'${pictures.length === 0 && (manifest.enclosed?.mark ?? null) === null ? '' : '; img-src data:'}"><title>${esc(kind)}${words.ui.UI.colon} ${esc(cut(title))}</title><style>${STYLE}${practice?.look ?? ''}</style></head><body>
${body}
</body></html>
`;
}

/**
 * The certificate as a file of the job's file, in the record's language.
 * @param values of the record, asked for once the trace was derived
 */
export const certificateExtra =
  (values: () => Values, catalogueOf: CatalogueOf): ExtraFiles =>
  async (record) => {
    const words = await catalogueOf(record.manifest.wording);
    const html = certificatePage(record, values(), words);
    return [{ name: CERTIFICATE_FILE, bytes: new TextEncoder().encode(html) }];
  };
