export function isRoot(): boolean;
export function onPath(name: string): string | null;
export function findChromium(): string | null;
export function findCompiler(): string | null;
export function provideChromium(): string | null;
export function provideFirefox(): string | null;
export function provideWebKit(): string | null;
export function provideCompiler(): string | null;
export function provideTools(commands: Record<string, string>): void;
