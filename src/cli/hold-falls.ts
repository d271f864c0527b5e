import { parquetMetadata, parquetRead } from 'hyparquet';

/** The pressure of a trace, a value a sample; NaN where there is none. */
export interface PressureTrace {
  /** Seconds from the first sample, ascending. */
  readonly s: Float64Array;
  readonly bar: Float64Array;
}

/** Reads time and pressure of a trace.parquet (docs/record.md 7). */
export async function pressureOf(trace: Uint8Array): Promise<PressureTrace> {
  const file = trace.buffer.slice(trace.byteOffset, trace.byteOffset + trace.byteLength) as ArrayBuffer;
  const rows = Number(parquetMetadata(file).num_rows);
  const columns: Record<string, Float64Array> = {
    time_s: new Float64Array(rows).fill(Number.NaN),
    pressure_bar: new Float64Array(rows).fill(Number.NaN),
  };
  await parquetRead({
    file,
    columns: Object.keys(columns),
    onChunk({ columnName, columnData, rowStart }) {
      const column = columns[columnName]!;
      for (let i = 0; i < columnData.length; i++) column[rowStart + i] = columnData[i] ?? Number.NaN;
    },
  });
  return { s: columns.time_s!, bar: columns.pressure_bar! };
}

export interface Fall {
  /** How fast the line fell, mbar/min, by least squares over every sample; null: fewer than two of them. */
  readonly mbarPerMin: number | null;
  /** Samples with a pressure. */
  readonly samples: number;
}

/** The bare fall of a trace between two moments, both included, s. It is not the leak: air that cools falls too. */
export function fallBetween({ s, bar }: PressureTrace, fromS: number, toS: number): Fall {
  let n = 0;
  let meanS = 0;
  let meanBar = 0;
  let sumSS = 0;
  let sumSBar = 0;
  // Welford's means: hours at 50 Hz lose no digits.
  for (let i = 0; i < s.length; i++) {
    const at = s[i]!;
    const value = bar[i]!;
    if (!(at >= fromS && at <= toS) || Number.isNaN(value)) continue;
    n++;
    const ds = at - meanS;
    meanS += ds / n;
    meanBar += (value - meanBar) / n;
    sumSS += ds * (at - meanS);
    sumSBar += ds * (value - meanBar);
  }
  return { mbarPerMin: n > 1 && sumSS > 0 ? (-sumSBar / sumSS) * 60e3 : null, samples: n };
}
