import type { BenchDocument } from '../bench-document.ts';

/** A device tried on the bench, for tests that need one. */
export function benchRecord(more: Partial<BenchDocument> = {}): BenchDocument {
  return {
    version: 1,
    deviceId: 'SB-0042',
    firmware: '1.4',
    practice: false,
    origin: 'own',
    utcMs: Date.UTC(2026, 10, 28, 8),
    listenedS: 240,
    baudRate: 500_000,
    said: ['H,1,SB-0042,1.4,7,41234,1,200,a777c8ae'],
    refused: [{ reason: 'crc', lines: 2, example: 'S,17,3400,8107,0,00000000␊' }],
    findings: [
      { point: 'lines', channel: null, reason: 'clean', value: 0, against: 12_000, more: null },
      { point: 'noise', channel: 0, reason: 'quiet', value: 0.4, against: 3.1, more: 11 },
      { point: 'warm', channel: 2, reason: 'not-held', value: null, against: null, more: null },
      { point: 'guard', channel: 0, reason: 'not-heard', value: 0.312, against: 0.3, more: null },
    ],
    by: 'A. B.',
    notes: '',
    ...more,
  };
}
