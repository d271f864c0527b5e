import { createMemo, Show } from 'solid-js';
import type { LinkError } from '../../link/status.ts';
import { fixed } from '../../words/format.ts';
import { LAST_LINE, LINE_TOO_SLOW, LINK_ERROR, SPAN_UNKNOWN } from '../../words/link.ts';
import { useServices } from '../context.ts';
import { BesideNote } from './BesideNote.tsx';
import { SourceNote } from './SourceNote.tsx';

/** Where bytes come and no frame does, the line itself tells whoever made the device the most. */
const SHOWN_WITH_LINE: { readonly [E in LinkError]?: true } = {
  speed: true,
  'not-protocol': true,
  'line-ends': true,
  check: true,
  form: true,
  'bus-garbled': true,
  'other-master': true,
  'no-columns': true,
};

/** What is wrong with the connection and what to do about it, before a run and in it. */
export function LinkNote() {
  const app = useServices();
  /** Pressure comes, and neither device nor job says by which scale to read it. */
  const unscaled = createMemo(() => {
    const channels = app.live.setup()?.channels ?? [];
    if (channels.some((c) => c.role === 'pressure')) return false;
    const pressures = (app.live.link()?.channels ?? []).filter((c) => c.quantity === 'press');
    return pressures.length > 0 && pressures.every((c) => c.signal === 'voltage');
  });
  /** The device says that it sends more than its line carries. */
  const tooSlow = createMemo(() => {
    const { rateHz, mostHz, baudRate } = app.live.link() ?? {};
    if (rateHz == null || mostHz == null || baudRate == null || rateHz <= mostHz) return null;
    return LINE_TOO_SLOW(fixed(rateHz, 0), fixed(Math.floor(mostHz), 0), baudRate);
  });
  const advice = () => {
    const error = app.live.link()?.error ?? null;
    return error === null ? (unscaled() ? SPAN_UNKNOWN : tooSlow()) : LINK_ERROR[error];
  };
  const line = () => {
    const link = app.live.link();
    return link?.error != null && SHOWN_WITH_LINE[link.error] === true ? link.strayLine : null;
  };
  return (
    <>
      <SourceNote />
      <BesideNote />
      <Show when={advice()}>
        {(a) => (
          <p class="note strong" role="status" data-testid="link-error">
            <strong>{a().title}.</strong> {a().todo}
            <Show when={line()}>
              {(text) => (
                <>
                  {' '}
                  {LAST_LINE}{' '}
                  <code class="stray-line" data-testid="stray-line">
                    {text()}
                  </code>
                </>
              )}
            </Show>
          </p>
        )}
      </Show>
    </>
  );
}
