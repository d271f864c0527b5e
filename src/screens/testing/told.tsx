import type { JSX } from 'solid-js';
import { render } from 'solid-js/web';
import type { Services } from '../context.ts';

/** Draws a page into the document; the answer takes it away. */
export async function draw(app: Services, page: () => JSX.Element): Promise<() => void> {
  // Loaded late: it takes words, and these are the ones that the test has chosen.
  const { ServicesContext } = await import('../context.ts');
  const host = document.createElement('div');
  document.body.append(host);
  const end = render(() => <ServicesContext.Provider value={app}>{page()}</ServicesContext.Provider>, host);
  return () => {
    end();
    host.remove();
  };
}

/** Everything that the document tells, on the screen and to a screen reader. */
export function told(): readonly string[] {
  const out: string[] = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  // What is quoted as it stands (the licences of libraries) is no word of the page's.
  while (walk.nextNode())
    if (walk.currentNode.parentElement?.closest('[translate="no"]') === null)
      out.push(walk.currentNode.nodeValue ?? '');
  for (const name of ['aria-label', 'aria-valuetext', 'title', 'placeholder', 'alt', 'label'])
    for (const element of document.querySelectorAll(`[${name}]`)) out.push(element.getAttribute(name) ?? '');
  return out.filter((t) => t.trim() !== '');
}
