import { createEffect, createSignal, createUniqueId, lazy, Show, Suspense } from 'solid-js';
import { Loading } from '../../widgets/Loading.tsx';
import { loadWords } from '../../words/chosen.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import type { HelpCode } from './HelpText.tsx';
import { helpPlace } from './place.ts';

/** Its words are fetched when they are first asked for: the live page does not wait for them. */
const HelpText = lazy(async () => {
  await loadWords('further');
  return { default: (await import('./HelpText.tsx')).HelpText };
});

/** What of a toggle's event is needed; happy-dom has no such event. */
type Toggle = Event & { readonly newState?: string };

/**
 * A '?' where a crew would stop and ask. The platform's own popover: opened by key and touch, closed by Escape or a press beside it. An
 * urgent alarm closes it.
 */
export function Help(props: {
  about: HelpCode;
  /** What it is about, as it is called beside it. */
  of: string;
}) {
  const { live } = useServices();
  const id = createUniqueId();
  const [open, setOpen] = createSignal(false);
  let key!: HTMLButtonElement;
  let sheet!: HTMLDivElement;
  let close!: HTMLButtonElement;
  const urgent = () =>
    (live.view()?.alarms ?? [])
      .filter((a) => a.priority === 'urgent' && a.state === 'unacknowledged')
      .map((a) => `${a.alarm} ${a.occurrence}`)
      .join();
  /** What was there when it was opened. */
  let before = '';
  // Asked only while it is open: the view changes with every moment.
  createEffect(() => {
    if (!open()) return;
    const now = urgent();
    if (now !== '' && now !== before) sheet.hidePopover();
  });

  const place = (event: Toggle) => {
    if (event.newState !== 'open') return;
    const drawer = key.closest('.drawer')?.getBoundingClientRect() ?? null;
    const size = { width: innerWidth, height: innerHeight };
    const at = helpPlace(key.getBoundingClientRect(), drawer, size);
    for (const [name, px] of Object.entries({ top: null, bottom: null, ...at }))
      sheet.style[name as 'top'] = px === null ? 'auto' : `${px}px`;
  };
  const toggled = (event: Toggle) => {
    before = urgent();
    setOpen(event.newState === 'open');
    // Whoever goes by key or by ear is led to it; closing it leads back to the '?' by itself.
    if (open()) close.focus({ preventScroll: true });
  };
  return (
    <>
      <button
        ref={key}
        type="button"
        class="help-key no-print"
        popovertarget={id}
        aria-label={UI.helpOn(props.of)}
        data-testid={`help-${props.about}`}
      >
        <span aria-hidden="true">?</span>
      </button>
      <div
        ref={sheet}
        id={id}
        popover="auto"
        class="help-sheet no-print"
        role="dialog"
        aria-label={UI.helpOn(props.of)}
        data-testid={`help-sheet-${props.about}`}
        on:beforetoggle={place}
        on:toggle={toggled}
        // The drawer round it stays open.
        onKeyDown={(e) => e.key === 'Escape' && e.stopPropagation()}
      >
        <Show when={open()}>
          <strong>{props.of}</strong>
          <Suspense fallback={<Loading />}>
            <HelpText about={props.about} />
          </Suspense>
          <button
            ref={close}
            type="button"
            class="button"
            popovertarget={id}
            popovertargetaction="hide"
            data-testid={`help-close-${props.about}`}
          >
            {UI.close}
          </button>
        </Show>
      </div>
    </>
  );
}
