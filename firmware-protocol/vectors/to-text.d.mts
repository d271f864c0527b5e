import type { Frame } from '../../src/link/frames.ts';

export function frameAsText(frame: Frame): string;
export function vectorsAsText(): string;
