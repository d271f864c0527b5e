export interface EnclosedSize {
  readonly width: number;
  readonly height: number;
}

/** The size with its longer side at most this, never larger than it is, never without a pixel. */
export function fitted({ width, height }: EnclosedSize, side: number): EnclosedSize {
  const share = Math.min(1, side / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) };
}
