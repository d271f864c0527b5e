import { Show } from 'solid-js';
import { type DialGauge, dialGaugeU, GAUGE_CLASSES, USUAL_GAUGE } from '../../job/dial-gauge.ts';
import { numberAt } from '../../job/documents.ts';
import { Choice, Part } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { pressure, typed } from '../../words/format.ts';
import { SETTINGS } from '../../words/settings.ts';
import { useServices } from '../context.ts';
import { changeSettings } from './change.ts';

/** Span and class of the crew's dial gauge: what it agrees with a transducer to. */
export function DialGaugePart() {
  const app = useServices();
  const gauge = () => app.settings().dialGauge ?? USUAL_GAUGE;
  const change = (part: Partial<DialGauge>) => changeSettings(app, { dialGauge: { ...gauge(), ...part } });
  return (
    <Part title={SETTINGS.dialGauge} note={SETTINGS.dialGaugeText}>
      <div class="fields">
        <NumberField
          label={SETTINGS.dialSpan}
          rules={numberAt('settings', 'dialGauge.spanBar')}
          units={app.units()}
          testId="dial-span"
          value={gauge().spanBar}
          onValue={(v) => v !== null && change({ spanBar: v })}
        />
        <Choice
          label={SETTINGS.dialClass}
          testId="dial-class"
          value={String(gauge().class)}
          options={GAUGE_CLASSES.map((c) => ({ value: String(c), text: typed(c) }))}
          onValue={(v) => {
            const chosen = GAUGE_CLASSES.find((c) => String(c) === v);
            if (chosen !== undefined) change({ class: chosen });
          }}
        />
      </div>
      <p class="small" data-testid="dial-u">
        {SETTINGS.dialU(pressure(dialGaugeU(gauge()), app.units(), 1))}{' '}
        <Show when={app.settings().dialGauge === undefined}>{SETTINGS.dialAssumed}</Show>
      </p>
    </Part>
  );
}
