import { encodeFrame } from '../link/encode.ts';
import type { DeviceFrame } from '../link/frames.ts';
import { shownLine } from '../link/hearing.ts';
import type { HeardLine } from '../link/line-log.ts';

/** A frame as it stands on the line, without its end. */
export const frameText = (frame: DeviceFrame): string => shownLine(encodeFrame(frame).subarray(0, -1));

/** A line for reading: a frame has exactly one byte form, so it is the line that came. */
export const lineText = (line: HeardLine): string =>
  'frame' in line ? frameText(line.frame) : shownLine(line.bytes);
