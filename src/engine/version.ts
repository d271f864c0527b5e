/** What a record says made it. Kept equal to package.json by a test. */
export const VERSION = '0.1.0';
export const SOFTWARE = `steadybar ${VERSION}`;
