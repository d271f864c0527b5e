import { createEffect, createUniqueId, type JSX, onCleanup, Show } from 'solid-js';
import { UI } from '../words/ui.ts';
import { hasToGiveWay } from './give-way.ts';

/** A modal sheet on the platform's own dialog element: focus is kept inside, Escape closes. It gives way to an urgent alarm and comes again. */
export function Dialog(props: {
  open: boolean;
  title: string;
  onClose(): void;
  children: JSX.Element;
  actions?: JSX.Element;
  testId?: string;
}) {
  const id = createUniqueId();
  let element!: HTMLDialogElement;
  let yields = false;
  createEffect(() => {
    yields = hasToGiveWay(element);
    const shows = props.open && !yields;
    if (shows && !element.open) element.showModal();
    else if (!shows && element.open) element.close();
  });
  onCleanup(() => {
    if (element.open) element.close();
  });
  return (
    <dialog
      ref={element}
      class="dialog"
      aria-labelledby={id}
      data-testid={props.testId}
      onClose={() => props.open && !yields && props.onClose()}
    >
      <Show when={props.open}>
        <div class="stack">
          <h2 id={id}>{props.title}</h2>
          {props.children}
          <div class="row end dialog-actions">{props.actions}</div>
        </div>
      </Show>
    </dialog>
  );
}

/** A question before something that cannot be undone. The safe answer stands first and is focused. */
export function Confirm(props: {
  open: boolean;
  title: string;
  text: string;
  yes: string;
  no?: string;
  onYes(): void;
  onNo(): void;
  testId?: string;
}) {
  return (
    <Dialog
      open={props.open}
      title={props.title}
      onClose={props.onNo}
      {...(props.testId === undefined ? {} : { testId: props.testId })}
      actions={
        <>
          <button type="button" class="button" autofocus onClick={() => props.onNo()}>
            {props.no ?? UI.cancel}
          </button>
          <button
            type="button"
            class="button primary"
            data-testid="confirm-yes"
            onClick={() => props.onYes()}
          >
            {props.yes}
          </button>
        </>
      }
    >
      <p>{props.text}</p>
    </Dialog>
  );
}
