import { createSignal, For, Show } from 'solid-js';
import { SIGNED_AS, type SignedAs } from '../../job/enclosed.ts';
import { isBlank, isFull, PAD, type Strokes, strokesPath } from '../../job/strokes.ts';
import { Choice, TextField } from '../../widgets/Fields.tsx';
import { PHOTOS as P } from '../../words/photos.ts';

/** A point nearer than this to the one before says nothing more; units of the pad. */
const LEAST_STEP = 4;

const within = (v: number, most: number): number => Math.max(0, Math.min(most, Math.round(v)));

/** A pad to sign on, and whose signature it is. */
export function SignaturePad(props: {
  onKeep(signed: { as: SignedAs; name: string; strokes: Strokes }): Promise<boolean>;
}) {
  const [strokes, setStrokes] = createSignal<readonly number[][]>([]);
  const [as, setAs] = createSignal<SignedAs>('crew');
  const [name, setName] = createSignal('');
  const [issue, setIssue] = createSignal<'blank' | 'name' | null>(null);
  let pad!: SVGSVGElement;
  let drawing: number | null = null;

  const at = (e: PointerEvent): [number, number] => {
    const box = pad.getBoundingClientRect();
    return [
      within(((e.clientX - box.left) / Math.max(1, box.width)) * PAD.width, PAD.width),
      within(((e.clientY - box.top) / Math.max(1, box.height)) * PAD.height, PAD.height),
    ];
  };
  const down = (e: PointerEvent) => {
    // A palm beside the pen draws nothing, nor does a second button.
    if (drawing !== null || e.button !== 0 || isFull(strokes())) return;
    drawing = e.pointerId;
    pad.setPointerCapture(e.pointerId);
    setIssue(null);
    setStrokes([...strokes(), at(e)]);
  };
  const move = (e: PointerEvent) => {
    if (e.pointerId !== drawing || isFull(strokes())) return;
    const last = strokes().at(-1);
    if (last === undefined) return;
    const [x, y] = at(e);
    if (Math.hypot(x - last.at(-2)!, y - last.at(-1)!) < LEAST_STEP) return;
    setStrokes([...strokes().slice(0, -1), [...last, x, y]]);
  };
  const up = (e: PointerEvent) => {
    if (e.pointerId === drawing) drawing = null;
  };
  const keep = () => {
    if (isBlank(strokes())) return setIssue('blank');
    if (name().trim() === '') return setIssue('name');
    setIssue(null);
    void props.onKeep({ as: as(), name: name(), strokes: strokes() }).then((done) => {
      if (!done) return;
      setStrokes([]);
      setName('');
    });
  };
  return (
    <div class="stack signature" data-testid="signature-pad">
      <p class="small muted">{P.signLead}</p>
      <div class="fields">
        <Choice
          label={P.as}
          testId="signed-as"
          value={as()}
          options={SIGNED_AS.map((value) => ({ value, text: P.asWhom[value] }))}
          onValue={setAs}
        />
        <TextField
          label={P.name}
          testId="signed-name"
          value={name()}
          issue={issue() === 'name' ? P.nameNeeded : null}
          onValue={setName}
        />
      </div>
      <svg
        ref={pad}
        class="pad"
        viewBox={`0 0 ${PAD.width} ${PAD.height}`}
        role="img"
        aria-label={P.pad}
        data-testid="pad"
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={up}
      >
        <path class="pad-line" d={`M40 ${PAD.height - 70}H${PAD.width - 40}`} />
        <For each={strokes()}>{(s) => <path class="pad-stroke" d={strokesPath([s])} />}</For>
      </svg>
      <Show when={issue() === 'blank' || isFull(strokes())}>
        <p class="note strong" role="alert">
          {issue() === 'blank' ? P.blank : P.full}
        </p>
      </Show>
      <div class="row">
        <button type="button" class="button primary" data-testid="keep-signature" onClick={keep}>
          {P.keep}
        </button>
        <button
          type="button"
          class="button"
          data-testid="undo-stroke"
          disabled={strokes().length === 0}
          onClick={() => setStrokes(strokes().slice(0, -1))}
        >
          {P.undo}
        </button>
        <button
          type="button"
          class="button quiet"
          data-testid="clear-pad"
          disabled={strokes().length === 0}
          onClick={() => setStrokes([])}
        >
          {P.clear}
        </button>
      </div>
    </div>
  );
}

/** A kept signature as it was drawn. */
export function Signature(props: { strokes: Strokes; label: string }) {
  return (
    <svg class="hand" viewBox={`0 0 ${PAD.width} ${PAD.height}`} role="img" aria-label={props.label}>
      <path class="pad-stroke" d={strokesPath(props.strokes)} />
    </svg>
  );
}
