import { createSignal, Show } from 'solid-js';
import { nextTitle, sameAgain } from '../../job/again.ts';
import { numberAt, textAt } from '../../job/documents.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { Dialog } from '../../widgets/Dialog.tsx';
import { TextField, Tick } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { AGAIN } from '../../words/due.ts';
import { UI } from '../../words/ui.ts';
import { listInForce } from '../checklist/in-use.ts';
import { useServices } from '../context.ts';
import { ownInitials } from '../people.ts';

/** A repair done once more: what cannot be taken over is asked, the rest is copied. */
export function SameAgain(props: {
  from: JobDocument;
  today: string;
  titles: readonly string[];
  onMake(job: JobDocument): void;
  onClose(): void;
}) {
  const app = useServices();
  const { from } = props;
  const [title, setTitle] = createSignal(nextTitle(from.title, props.titles));
  const [chainageM, setChainage] = createSignal<number | null>(null);
  const [lengthMm, setLength] = createSignal(from.defect.lengthMm);
  const [resinBatch, setResin] = createSignal('');
  const [hardenerBatch, setHardener] = createSignal('');
  const [inspected, setInspected] = createSignal(false);
  const batches = [from.resin.resinBatch, from.resin.hardenerBatch].filter((b) => b.trim() !== '');
  const most = { title: textAt('job', 'title').most, batch: textAt('job', 'resin.resinBatch').most };
  const make = async () =>
    props.onMake(
      sameAgain(from, {
        date: props.today,
        title: title().trim() === '' ? nextTitle(from.title, props.titles) : title().slice(0, most.title),
        chainageM: chainageM(),
        lengthMm: lengthMm(),
        resinBatch: resinBatch().slice(0, most.batch),
        hardenerBatch: hardenerBatch().slice(0, most.batch),
        inspected: inspected()
          ? {
              item: 'packer-inspected',
              how: 'done',
              text: '',
              atUtcMs: app.nowMs(),
              by: ownInitials(app),
            }
          : null,
        checklist: await listInForce(app),
      }),
    );
  return (
    <Dialog
      open
      title={AGAIN.title}
      onClose={props.onClose}
      testId="again"
      actions={
        <>
          <button type="button" class="button" onClick={() => props.onClose()}>
            {UI.cancel}
          </button>
          <button
            type="button"
            class="button primary"
            data-testid="again-make"
            onClick={() => void make().catch(app.fail)}
          >
            {AGAIN.make}
          </button>
        </>
      }
    >
      <p>{AGAIN.what(from.title)}</p>
      <div class="fields">
        <NumberField
          label={AGAIN.position}
          rules={numberAt('job', 'defect.chainageM')}
          units={app.units()}
          value={chainageM()}
          onValue={setChainage}
          testId="again-chainage"
        />
        <NumberField
          label={AGAIN.length}
          rules={numberAt('job', 'defect.lengthMm')}
          units={app.units()}
          value={lengthMm()}
          onValue={setLength}
          testId="again-length"
        />
      </div>
      <Show when={batches.length > 0}>
        <button
          type="button"
          class="button"
          data-testid="again-batch"
          onClick={() => {
            setResin(from.resin.resinBatch);
            setHardener(from.resin.hardenerBatch);
          }}
        >
          {AGAIN.sameBatch(batches.join(' / '))}
        </button>
      </Show>
      <div class="fields">
        <TextField label={AGAIN.resinBatch} value={resinBatch()} onValue={setResin} testId="again-resin" />
        <TextField
          label={AGAIN.hardenerBatch}
          value={hardenerBatch()}
          onValue={setHardener}
          testId="again-hardener"
        />
        <TextField label={AGAIN.name} value={title()} onValue={setTitle} testId="again-title" />
      </div>
      <Tick label={AGAIN.inspected} checked={inspected()} onChecked={setInspected} testId="again-inspected" />
      <p class="small muted">
        {AGAIN.zero} {AGAIN.rest}
      </p>
    </Dialog>
  );
}
