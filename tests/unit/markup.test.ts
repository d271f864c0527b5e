import { expect, it } from 'vitest';
import { markupFaults } from '../tools/markup.mjs';

const faultsOf = (text: string, exceptions = {}) => markupFaults(['a.ts'], () => text, exceptions);

it('finds each way by which a text becomes markup or runs, with its line', () => {
  for (const line of [
    'e.innerHTML = name;',
    '<div innerHTML={title()} />',
    "e.insertAdjacentHTML('beforeend', name);",
    'frame.srcdoc = page;',
    'document.write(name);',
    'eval(name);',
    'new Function(name)();',
    "setTimeout('run()', 5);",
    'a.href = `javascript:${name}`;',
    "new DOMParser().parseFromString(name, 'text/html');",
    'range.createContextualFragment(name);',
  ])
    expect(faultsOf(`const x = 1;\n${line}\n`), line).toEqual([
      `a.ts:2: a text becomes markup or runs: ${line}`,
    ]);
  expect(faultsOf('e.textContent = name;\n// never innerHTML\nsetTimeout(() => run(), 5);')).toEqual([]);
});

it('lets an exception stand only where it is, and only as long as it is needed', () => {
  const exceptions = { 'a.ts': 'innerHTML={MARK}' };
  expect(faultsOf('<div innerHTML={MARK} />', exceptions)).toEqual([]);
  expect(faultsOf('<div innerHTML={name} />', exceptions)).toHaveLength(2);
  expect(faultsOf('nothing', exceptions)).toEqual([
    'tests/tools/markup.mjs: a.ts needs its exception no more',
  ]);
});
