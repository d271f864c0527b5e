import { createSignal, Show } from 'solid-js';
import type { EvidenceAnswers, RecordRef } from '../../evidence/messages.ts';
import { refText } from '../../evidence/messages.ts';
import { progressText } from '../../words/evidence.ts';
import { HANDOVER as H } from '../../words/handover.ts';
import { failed, useServices } from '../context.ts';
import { saveBlob } from '../save.ts';

type Packet = EvidenceAnswers['packet'];

const fileOf = (name: string, blob: Blob): File => new File([blob], name, { type: blob.type });

/** What the browser's share sheet takes of a packet: all of it, what is for reading, or nothing. */
export function shareable(
  packet: Packet,
): { readonly files: readonly File[]; readonly whole: boolean } | null {
  if (typeof navigator.canShare !== 'function' || typeof navigator.share !== 'function') return null;
  const whole = [fileOf(packet.name, packet.file)];
  if (navigator.canShare({ files: whole })) return { files: whole, whole: true };
  const reading = packet.reading.map((r) => fileOf(r.name.replace('photos/', ''), r.file));
  return navigator.canShare({ files: reading }) ? { files: reading, whole: false } : null;
}

/** One press makes the client's packet; then it is saved, shared where the browser has a sheet for it, and printed. */
export function HandOver(props: { source: RecordRef }) {
  const app = useServices();
  const [busy, setBusy] = createSignal<string | null>(null);
  const [packet, setPacket] = createSignal<Packet | null>(null);
  const sheet = () => {
    const made = packet();
    return made === null ? null : shareable(made);
  };
  const save = (made: Packet) => saveBlob(made.name, made.file);
  const make = async () => {
    setPacket(null);
    setBusy(progressText(H.making, 0));
    const made = await app
      .evidence({ q: 'packet', ref: props.source }, (share) => setBusy(progressText(H.making, share)))
      .catch(failed(app));
    setBusy(null);
    if (made === null) return;
    setPacket(made);
    // Where the sheet takes all of it nothing need be saved first.
    if (shareable(made)?.whole !== true) save(made);
  };
  const share = (files: readonly File[]) =>
    navigator.share({ title: H.shareTitle, files: [...files] }).then(
      () => app.say(H.shared),
      // Whoever closes the sheet has not failed.
      (cause: unknown) =>
        cause instanceof DOMException && cause.name === 'AbortError' ? undefined : app.fail(cause),
    );
  return (
    <div class="stack hand-over no-print">
      <div class="row">
        <button
          type="button"
          class="button"
          data-testid="make-packet"
          disabled={busy() !== null}
          onClick={() => void make()}
        >
          {H.make}
        </button>
      </div>
      <p class="small muted">{H.what}</p>
      <Show when={busy()}>
        <p role="status" data-testid="packet-busy">
          {busy()}
        </p>
      </Show>
      <Show when={packet()}>
        {(made) => (
          <>
            <Show when={sheet()?.whole !== true}>
              <p class="note" role="status" data-testid="packet-saved">
                {H.saved} {sheet() === null ? '' : H.shareRestText}
              </p>
            </Show>
            <div class="row">
              <Show when={sheet()}>
                {(s) => (
                  <button
                    type="button"
                    class="button primary"
                    data-testid="share-packet"
                    onClick={() => void share(s().files)}
                  >
                    {s().whole ? H.share : H.shareRest}
                  </button>
                )}
              </Show>
              <a class="button" data-testid="print-packet" href={`#/certificate/${refText(props.source)}`}>
                {H.print}
              </a>
              <button type="button" class="button quiet" onClick={() => save(made())}>
                {H.again}
              </button>
            </div>
          </>
        )}
      </Show>
    </div>
  );
}
