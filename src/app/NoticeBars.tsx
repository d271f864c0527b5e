import { type JSX, Show } from 'solid-js';
import { UI } from '../words/ui.ts';
import type { Notices } from './notices.ts';

/** What the page says of itself, faults over news. */
export function NoticeBars(props: { notices: Notices; place: JSX.CSSProperties }) {
  const n = () => props.notices;
  return (
    <Show when={n().fault() !== null || n().news() !== null}>
      <div class="notice-bars" style={props.place}>
        <Show when={n().fault()}>
          {(fault) => (
            <div class="notice-bar" role="alert" data-testid="fault-notice">
              <span>{fault().text}</span>
              <button
                type="button"
                class="button"
                data-testid="fault-read"
                onClick={() => n().dismissFault()}
              >
                {UI.close}
              </button>
            </div>
          )}
        </Show>
        <Show when={n().news()}>
          {(news) => (
            <div class="notice-bar" role="status" data-testid="notice">
              <span>{news().text}</span>
              <Show when={news().undo}>
                {(undo) => (
                  <button
                    type="button"
                    class="button"
                    onClick={() => {
                      undo()();
                      n().dismissNews();
                    }}
                  >
                    {UI.undo}
                  </button>
                )}
              </Show>
            </div>
          )}
        </Show>
      </div>
    </Show>
  );
}
