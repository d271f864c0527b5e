import { Show } from 'solid-js';
import { Part } from '../../widgets/Fields.tsx';
import { planNumber } from '../../words/refusals.ts';
import { SHEET } from '../../words/sheet.ts';
import { useServices } from '../context.ts';
import { FormNumber, FormText } from '../documents/FormFields.tsx';
import type { Form } from '../documents/form.ts';

/** Pressures as the crew wants them; empty ones are the plan's. */
export function Pressures(props: {
  form: Form<'job'>;
  proposalBar: number | null;
  running: boolean;
  onApply(): void;
}) {
  const app = useServices();
  const proposal = () => {
    const bar = props.proposalBar;
    return bar === null ? SHEET.workingHint : SHEET.workingHintOf(planNumber(bar, 'bar', app.units()));
  };
  return (
    <Part title={SHEET.partPressures}>
      <div class="fields">
        <FormNumber form={props.form} at="pressures.workingBar" label={SHEET.working} hint={proposal()} />
        <FormNumber form={props.form} at="pressures.seatBar" label={SHEET.seat} />
        <FormNumber form={props.form} at="pressures.seatingMarginBar" label={SHEET.margin} />
        <FormNumber form={props.form} at="pressures.reliefBar" label={SHEET.relief} />
        <FormText
          form={props.form}
          at="pressures.noMarginReason"
          label={SHEET.noMargin}
          hint={SHEET.noMarginHint}
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
