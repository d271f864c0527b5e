import { createMemo, For, Show } from 'solid-js';
import type { JobBundle } from '../../job/bundle.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { Part, TextField } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { DERIVATION, inputsText, planNumber, refusalText, warningText } from '../../words/plan.ts';
import { SHEET } from '../../words/sheet.ts';
import { useServices } from '../context.ts';
import type { Form } from '../documents/form.ts';
import { planOf } from '../setup-of.ts';
import type { Shelf } from './shelf.ts';

/** Pressures as the crew wants them, and what the plan makes of the whole sheet, each number with its reason. */
export function Pressures(props: { form: Form<JobDocument>; shelf: Shelf; jobId: string; running: boolean }) {
  const app = useServices();
  const d = () => props.form.draft();
  const set = (part: Partial<JobDocument['pressures']>) =>
    props.form.change({ pressures: { ...d().pressures, ...part } });
  const bundle = createMemo<JobBundle>(() => {
    const job = d();
    const used = new Set(job.device.channels.flatMap((c) => (c.sensorId === null ? [] : [c.sensorId])));
    return {
      jobId: props.jobId,
      job,
      packer: props.shelf.packers(job.packerId).find((p) => p.id === job.packerId) ?? null,
      resin: props.shelf.resins(job.resin.resinId).find((r) => r.id === job.resin.resinId) ?? null,
      sensors: props.shelf.sensors().filter((s) => used.has(s.id)),
    };
  });
  const plan = createMemo(() => (props.form.ok() ? planOf(app, bundle(), 1) : null));
  const apply = () => {
    const { setup } = planOf(app, bundle(), (app.live.setup()?.number ?? 1) + 1);
    app.ask({ q: 'setup', setup }).then(() => {
      app.live.setSetup(setup);
      app.say(SHEET.applied);
    }, app.fail);
  };
  const proposal = () => {
    const bar = plan()?.proposalBar ?? null;
    return bar === null ? SHEET.workingHint : `${SHEET.workingHint} ${planNumber(bar, 'bar', app.units())}`;
  };
  return (
    <>
      <Part title={SHEET.partPressures}>
        <div class="fields">
          <NumberField
            label={SHEET.working}
            hint={proposal()}
            kind="pressure"
            units={app.units()}
            value={d().pressures.workingBar}
            rules={{ lo: 0.05, hi: 20 }}
            onValue={(workingBar) => set({ workingBar })}
            testId="job-workingBar"
          />
          <NumberField
            label={SHEET.seat}
            kind="pressure"
            units={app.units()}
            value={d().pressures.seatBar}
            rules={{ lo: 0.05, hi: 5 }}
            onValue={(seatBar) => set({ seatBar })}
            testId="job-seatBar"
          />
          <NumberField
            label={SHEET.margin}
            kind="pressure"
            units={app.units()}
            value={d().pressures.seatingMarginBar}
            rules={{ lo: 0, hi: 2 }}
            onValue={(v) => v !== null && set({ seatingMarginBar: v })}
          />
          <NumberField
            label={SHEET.relief}
            kind="pressure"
            units={app.units()}
            value={d().pressures.reliefBar}
            rules={{ lo: 0.05, hi: 25 }}
            onValue={(reliefBar) => set({ reliefBar })}
            testId="job-reliefBar"
          />
          <TextField
            label={SHEET.noMargin}
            hint={SHEET.noMarginHint}
            value={d().pressures.noMarginReason ?? ''}
            onValue={(v) => set({ noMarginReason: v === '' ? null : v })}
            issue={props.form.issue('pressures.noMarginReason')}
            testId="job-noMarginReason"
          />
        </div>
        <Show when={props.running}>
          <div class="row">
            <button
              type="button"
              class="button"
              data-testid="apply-setup"
              disabled={!props.form.ok()}
              onClick={apply}
            >
              {SHEET.apply}
            </button>
            <p class="small muted grow">{SHEET.applyText}</p>
          </div>
        </Show>
      </Part>
      <Show when={plan()}>
        {(p) => (
          <>
            <Part title={SHEET.findings}>
              <ul class="stack" data-testid="findings">
                <For each={p().refusals}>
                  {(r) => (
                    <li class="finding refuse" data-testid={`refusal-${r.code}`}>
                      <strong>{SHEET.refused}</strong> {refusalText(r, app.units())}
                    </li>
                  )}
                </For>
                <For each={p().warnings}>
                  {(w) => (
                    <li class="finding" data-testid={`warning-${w.code}`}>
                      {warningText(w, app.units())}
                    </li>
                  )}
                </For>
                <Show when={p().refusals.length + p().warnings.length === 0}>
                  <li class="muted">{SHEET.nothingFound}</li>
                </Show>
              </ul>
            </Part>
            <Part title={SHEET.derivation}>
              <ul data-testid="derivations">
                <For each={p().derivations}>
                  {(x) => (
                    <li>
                      <details class="derivation" data-testid={`derivation-${x.code}`}>
                        <summary>
                          <span>{DERIVATION[x.code].name}</span>
                          <strong>{planNumber(x.value, x.unit, app.units())}</strong>
                        </summary>
                        <p class="how">
                          {DERIVATION[x.code].how} {inputsText(x.inputs, app.units())}
                        </p>
                      </details>
                    </li>
                  )}
                </For>
              </ul>
            </Part>
          </>
        )}
      </Show>
    </>
  );
}
