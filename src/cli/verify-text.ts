import { groupFingerprint } from '../record/fingerprints.ts';
import { reservationsOf } from '../record/reservations.ts';
import type { Verification } from '../record/verify.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { plainLine, shown } from './fault.ts';

/** The outcome for people: verdict, findings, remarks, and what the record says of itself. */
export function verifyText(v: Verification, words: Catalogue): string {
  const { VERIFY } = words.commands;
  const lines = [
    VERIFY.headline(v.verdict, reservationsOf(v.verdict, v.remarks)),
    ...v.findings.map((f) => `  - ${VERIFY.finding(f, groupFingerprint)}`),
  ];
  const { manifest } = v;
  if (manifest !== null) {
    const when = (ms: number | null): string | null => (ms === null ? null : new Date(ms).toISOString());
    const key = groupFingerprint(manifest.signer.fingerprint);
    lines.push(
      VERIFY.run(shown(manifest.runId), manifest.jobId === null ? null : shown(manifest.jobId)),
      VERIFY.recorded(when(manifest.openedUtcMs), when(manifest.endedUtcMs)),
      VERIFY.sealed(
        manifest.pages.samples,
        manifest.pages.count,
        new Date(manifest.sealedUtcMs).toISOString(),
      ),
      v.signer === null ? VERIFY.key(key) : VERIFY.keyKnown(key, shown(v.signer)),
    );
  }
  lines.push(...v.remarks.map((r) => `  ${VERIFY.note(VERIFY.remark(r, groupFingerprint))}`));
  return `${lines.map(plainLine).join('\n')}\n`;
}
