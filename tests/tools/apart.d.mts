export const APART: readonly string[];
