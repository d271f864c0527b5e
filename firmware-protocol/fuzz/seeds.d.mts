export type Target = 'parser' | 'encoder' | 'device';
export const TARGETS: readonly Target[];
export function seeds(target: Target): Buffer[];
