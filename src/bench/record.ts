import type { BenchDocument } from '../job/bench-document.ts';
import { shownLine } from '../link/hearing.ts';
import type { Bench } from './bench.ts';
import type { Finding } from './findings.ts';
import { frameText } from './line-text.ts';
import { listenedS } from './traffic.ts';

const round = (value: number | null): number | null =>
  value === null || !Number.isFinite(value) ? null : Number(value.toPrecision(6));

/** What is kept of a device that was tried; null: it has not said who it is, so that it would be nobody's. */
export function recordOf(
  b: Bench,
  found: readonly Finding[],
  more: Pick<BenchDocument, 'practice' | 'utcMs' | 'baudRate' | 'by' | 'notes'>,
): BenchDocument | null {
  const { hello, channels } = b.intake;
  if (hello === null) return null;
  return {
    version: 1,
    deviceId: hello.deviceId,
    firmware: hello.firmware,
    origin: 'own',
    listenedS: Math.round(listenedS(b.traffic)),
    said: [hello, ...channels].map(frameText),
    refused: [...b.traffic.refused].map(([reason, { lines, bytes }]) => ({
      reason,
      lines,
      example: shownLine(bytes),
    })),
    findings: found.map(({ point, channel, reason, value, against, more: third }) => ({
      point,
      channel,
      reason,
      value: round(value),
      against: round(against),
      more: round(third),
    })),
    ...more,
  };
}
