import { createSignal, For, type JSX, Show } from 'solid-js';
import type { Route } from '../../screens/route.ts';
import { widthEm } from '../../widgets/fit.ts';
import { UI } from '../../words/ui.ts';
import { BRAND_MARK } from '../brand.ts';

export const NAV: readonly { readonly page: Route['page']; readonly href: string; readonly text: string }[] =
  [
    { page: 'jobs', href: '#/jobs', text: UI.jobs },
    { page: 'live', href: '#/live', text: UI.live },
    { page: 'archive', href: '#/archive', text: UI.archive },
    { page: 'settings', href: '#/settings', text: UI.settings },
    { page: 'about', href: '#/about', text: UI.about },
  ];

/** Letters of the ways to other pages, and what stands beside each, px (shell.css). */
const NAV_LETTERS_PX = 16;
const NAV_BESIDE_PX = 18;
/** Width that they take in the page's language, px; they are 320 in English. */
export const navPx = (): number =>
  NAV.reduce((sum, { text }) => sum + widthEm(text, 400) * NAV_LETTERS_PX + NAV_BESIDE_PX, 0);

/**
 * The head of every page: name, pages, and what is to be known everywhere. A practice makes barrier stripes of it. In the hand the
 * pages are behind Menu, which opens where it covers neither pressure nor ladder.
 */
export function Strip(props: {
  page: Route['page'];
  small: boolean;
  /** No room for the name beside its mark. */
  narrow: boolean;
  /** No room for the pages beside what is to be known: they are behind Menu. */
  crowded: boolean;
  practice: boolean;
  style?: JSX.CSSProperties;
  menuStyle?: JSX.CSSProperties | undefined;
  children: JSX.Element;
}) {
  const [menu, setMenu] = createSignal(false);
  const behindMenu = () => props.small || props.crowded;
  const links = () => (
    <For each={NAV}>
      {(n) => (
        <a
          href={n.href}
          data-testid={`nav-${n.page}`}
          aria-current={props.page === n.page ? 'page' : undefined}
          onClick={() => setMenu(false)}
        >
          {n.text}
        </a>
      )}
    </For>
  );
  return (
    <>
      <header
        class="shell-head"
        classList={{ small: props.small, striped: props.practice }}
        style={props.style ?? {}}
        data-testid="zone-strip"
      >
        <div class="shell-name">
          <div innerHTML={BRAND_MARK} />
          <span classList={{ 'visually-hidden': props.narrow }}>{UI.app}</span>
        </div>
        <Show when={!behindMenu()}>
          <nav class="shell-nav" aria-label={UI.mainNav}>
            {links()}
          </nav>
        </Show>
        <Show when={props.practice}>
          <section class="practice-banner" data-testid="practice-banner" aria-label={UI.practiceWord}>
            <span title={UI.practiceBanner}>{UI.practiceWord}</span>
          </section>
        </Show>
        {props.children}
        <Show when={behindMenu()}>
          <button
            type="button"
            class="menu-key"
            aria-expanded={menu()}
            data-testid="menu"
            onClick={() => setMenu(!menu())}
          >
            {UI.menu}
          </button>
        </Show>
      </header>
      <Show when={behindMenu() && menu()}>
        <nav class="shell-menu" aria-label={UI.mainNav} style={props.menuStyle ?? {}}>
          {links()}
        </nav>
      </Show>
    </>
  );
}
