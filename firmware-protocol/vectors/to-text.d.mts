export function vectorsAsText(): string;
