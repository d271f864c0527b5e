import { expect, it } from 'vitest';
import { markOf } from './mark-of.ts';

const svg = (inside: string, size = 'width="300" height="100"'): Blob =>
  new Blob([`<svg xmlns="http://www.w3.org/2000/svg" ${size}>${inside}</svg>`]);

it('a drawing becomes a small PNG; its scripts are dead and its addresses are never asked', async () => {
  const asked: string[] = [];
  const seen = new PerformanceObserver((list) => asked.push(...list.getEntries().map((e) => e.name)));
  seen.observe({ type: 'resource' });
  const made = await markOf(
    svg(
      '<script>globalThis.marked = 1</script><rect width="300" height="100" onload="globalThis.marked = 1"/><image href="/never-asked.png" width="9" height="9"/>',
    ),
  );
  expect(made).toMatchObject({ width: 600, height: 200 });
  expect('marked' in globalThis).toBe(false);
  await new Promise((resolve) => setTimeout(resolve, 200));
  seen.disconnect();
  expect(asked.filter((name) => name.includes('never-asked'))).toEqual([]);
});

it('what is no picture, or too large for a mark, is refused', async () => {
  expect(await markOf(new Blob(['%PDF-1.7']))).toBe('unread');
  expect(await markOf(svg('<rect'))).toBe('unread');
  expect(await markOf(new Blob([new Uint8Array((2 << 20) + 1)]))).toBe('large');
  const png = new Uint8Array(40);
  png.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  new DataView(png.buffer).setUint32(16, 60_000);
  expect(await markOf(new Blob([png]))).toBe('large');
});
