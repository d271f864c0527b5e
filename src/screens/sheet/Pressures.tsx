import { Show } from 'solid-js';
import type { JobDocument } from '../../job/job-document.ts';
import { Part, TextField } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { planNumber } from '../../words/plan.ts';
import { SHEET } from '../../words/sheet.ts';
import { useServices } from '../context.ts';
import type { Form } from '../documents/form.ts';

/** Pressures as the crew wants them; empty ones are the plan's. */
export function Pressures(props: {
  form: Form<JobDocument>;
  proposalBar: number | null;
  running: boolean;
  onApply(): void;
}) {
  const app = useServices();
  const d = () => props.form.draft();
  const set = (part: Partial<JobDocument['pressures']>) =>
    props.form.change({ pressures: { ...d().pressures, ...part } });
  const proposal = () => {
    const bar = props.proposalBar;
    return bar === null ? SHEET.workingHint : `${SHEET.workingHint} ${planNumber(bar, 'bar', app.units())}`;
  };
  return (
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
            onClick={() => props.onApply()}
          >
            {SHEET.apply}
          </button>
          <p class="small muted grow">{SHEET.applyText}</p>
        </div>
      </Show>
    </Part>
  );
}
