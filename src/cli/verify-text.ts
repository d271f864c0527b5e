import type { Finding, Remark, Verdict } from '../record/findings.ts';
import { groupFingerprint } from '../record/signing.ts';
import type { Verification } from '../record/verify.ts';
import { shown } from './fault.ts';

const HEADLINE: Readonly<Record<Verdict, string>> = {
  valid: 'VALID: signed by a known key, and every byte is as it was signed',
  changed: 'CHANGED: this is not the record that was signed',
  refused: 'REFUSED: this is no record that can be checked here',
  'unknown-signer': 'UNKNOWN SIGNER: whole and unchanged, signed by a key that is not known here',
  incomplete: 'INCOMPLETE: a part of the record is missing',
};

const clock = (us: number | null): string => {
  if (us === null) return '?';
  const s = Math.floor(us / 1e6);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}.${String(Math.floor(us / 1e5) % 10)}`;
};

const PAGE_WHY: Readonly<Record<Extract<Finding, { f: 'pages' }>['why'], string>> = {
  crc: 'changed (CRC)',
  torn: 'cut short',
  missing: 'missing',
  order: 'out of order',
  chain: 'not the one that the next page names (chain)',
  form: 'not readable',
  version: 'of a later version',
  run: 'of another run',
  rewritten: 'made anew, chain and all, somewhere in this span',
  end: 'missing at the end',
};

function findingText(f: Finding): string {
  switch (f.f) {
    case 'refused':
      return `${f.why} at byte ${f.offset}`;
    case 'container':
      return `container: ${f.why} at byte ${f.offset}${f.file === null ? '' : `, ${f.file}`}`;
    case 'missing':
      return `missing: ${f.file}`;
    case 'strange':
      return `not of this record: ${f.file}`;
    case 'file':
      return `changed: ${f.file}${f.offset === null ? '' : ` at byte ${f.offset}`}`;
    case 'manifest':
      return `manifest.json: ${f.why}`;
    case 'contradiction':
      return `manifest and pages contradict each other in: ${f.members.join(', ')}`;
    case 'pages': {
      const pages = f.pages === 1 ? `page ${f.page}` : `pages ${f.page} to ${f.page + f.pages - 1}`;
      return `${pages}: ${PAGE_WHY[f.why]}; run time ${clock(f.fromUs)} to ${clock(f.toUs)}`;
    }
    case 'addition':
      return `addition ${f.number}: ${f.why}`;
    case 'signer':
      return `key ${groupFingerprint(f.fingerprint)}`;
  }
}

function remarkText(r: Remark): string {
  switch (r.r) {
    case 'interrupted':
      return 'the run was interrupted: nobody ended it';
    case 'resumed':
      return `the run was interrupted and taken up again, ${r.times} times; the gaps are marked`;
    case 'damaged-at-sealing':
      return `${r.pages} pages were damaged on the tablet before the record was sealed`;
    case 'no-job':
      return 'no job sheet belongs to this run';
    case 'additions':
      return `${r.count} signed additions${r.unknownSigners.length > 0 ? `, by keys not known here: ${r.unknownSigners.map(groupFingerprint).join('; ')}` : ''}`;
    case 'no-sums':
      return 'no signed sums: the derived files were made again and compared';
    case 'derived-otherwise':
      return `${r.file} is as signed; this program would make it otherwise`;
    case 'not-derived':
      return `${r.file} is as signed; it was not made again here`;
    case 'key-followed':
      return `the key follows key ${groupFingerprint(r.fingerprint)} (${r.reason}), ${r.endorsed ? 'which vouches for it' : 'which does not vouch for it'}`;
  }
}

/** The outcome for people: verdict, findings, remarks, and what the record says of itself. */
export function verifyText(v: Verification): string {
  const lines = [HEADLINE[v.verdict], ...v.findings.map((f) => `  - ${findingText(f)}`)];
  const { manifest } = v;
  if (manifest !== null) {
    const when = (ms: number | null): string => (ms === null ? 'not known' : new Date(ms).toISOString());
    lines.push(
      `run ${shown(manifest.runId)}, job ${manifest.jobId === null ? 'none' : shown(manifest.jobId)}`,
      `recorded ${when(manifest.openedUtcMs)} to ${when(manifest.endedUtcMs)} by the tablet's clock`,
      `${manifest.pages.samples} samples in ${manifest.pages.count} pages; sealed ${when(manifest.sealedUtcMs)}`,
      `key ${groupFingerprint(manifest.signer.fingerprint)}${v.signer === null ? '' : `, known as ${shown(v.signer)}`}`,
    );
  }
  lines.push(...v.remarks.map((r) => `  note: ${remarkText(r)}`));
  return `${lines.join('\n')}\n`;
}
