import { expect, it } from 'vitest';
import { ownAddress, plainMarkup } from './trusted.ts';

it.each([
  '<div class="row"><span>on = off</span></div>',
  '<svg viewBox="0 0 1 1"><path d="M0 0"/></svg>',
  '<p>Description: the valve is on, connect</p>',
])('markup that runs nothing passes: %s', (html) => {
  expect(plainMarkup(html)).toBe(html);
});

it.each([
  '<script>x</script>',
  '<SCRIPT src=x>',
  '<img src=x onerror=alert(1)>',
  '<svg/onload=alert(1)>',
  '<a href="javascript:alert(1)">',
  '<a href="data:text/html,x">',
  '<iframe src=x>',
  '<base href=x>',
  '<link rel=stylesheet href=x>',
  '<form action=x>',
])('markup that could run does not: %s', (html) => {
  expect(() => plainMarkup(html)).toThrow(TypeError);
});

it('addresses of this origin alone', () => {
  const base = 'http://localhost:4680/#/live';
  expect(ownAddress('./assets/engine.worker-1.js', base)).toBe('./assets/engine.worker-1.js');
  for (const address of ['http://localhost:4681/x.js', '//elsewhere.invalid/x.js', 'data:text/javascript,1'])
    expect(() => ownAddress(address, base)).toThrow(TypeError);
});
