import { createEffect, createMemo, createSignal, For, Show, untrack } from 'solid-js';
import type { SensorCalibration } from '../../job/sensor-document.ts';
import { ICE_U_K } from '../../plan/probe-worth.ts';
import { Choice } from '../../widgets/Fields.tsx';
import { COMPARISON } from '../../words/docs.ts';
import { quantity } from '../../words/format.ts';
import { useServices } from '../context.ts';
import { EMPTY, type Form, typedAt } from './form.ts';
import { stillnessOf, type TimedReading, withReading } from './stillness.ts';

/** Stirred melting ice, °C. */
const ICE_C = 0;
/** A device that has sent nothing for so long is not read, s. */
const OLD_S = 3;
const WHERE = ['ice', 'thermometer'] as const;
type Where = (typeof WHERE)[number];

/** A comparison in melting ice, to be filled: nothing is found yet. */
export const iceComparison = (date: string): SensorCalibration => ({
  date,
  asFound: [],
  asLeft: [],
  uReference: ICE_U_K,
  reference: COMPARISON.iceReference,
  by: '',
});

/**
 * Takes the readings of the connected device into a probe's calibration, one at a time, once they stand still. What is taken
 * is what the channel indicates before any correction.
 */
export function ProbeComparison(props: { form: Form<'sensor'>; calibration: SensorCalibration }) {
  const app = useServices();
  const { live } = app;
  const [courses, setCourses] = createSignal<ReadonlyMap<number, readonly TimedReading[]>>(new Map());
  const [where, setWhere] = createSignal<Where>(
    props.calibration.uReference === ICE_U_K || props.calibration.asFound.length === 0
      ? 'ice'
      : 'thermometer',
  );
  const isRig = () => live.link()?.kind === 'rig';
  const deviceId = () => live.link()?.hello?.deviceId ?? null;
  /** Of another device than the calibration's nothing is taken; of its own only the probe's channel. */
  const isOwn = (channel: number) => {
    const { deviceId: own, channel: its } = props.form.draft();
    return (own === null || own === deviceId()) && (its === null || its === channel);
  };

  createEffect(() => {
    const view = live.view();
    // What came before a break is no reading of now: a probe that is lost, or a device, is compared anew.
    if (view === null || view.ageS === null || view.ageS > OLD_S) {
      setCourses(new Map());
      return;
    }
    const tS = view.tUs / 1e6 - view.ageS;
    const setup = untrack(live.setup);
    const next = new Map<number, readonly TimedReading[]>();
    for (const { channel, c } of view.temps) {
      if (c === null) continue;
      const line = setup?.channels.find((ch) => ch.index === channel)?.calibration ?? null;
      const indicated = line === null ? c : (c - line.offset) / line.gain;
      next.set(channel, withReading(untrack(courses).get(channel) ?? [], { tS, c: indicated }));
    }
    setCourses(next);
  });

  const rows = createMemo(() =>
    (isRig() ? [] : [...courses()])
      .filter(([channel]) => isOwn(channel))
      .flatMap(([channel, course]) => {
        const now = stillnessOf(course);
        return now === null ? [] : [{ channel, ...now }];
      }),
  );

  const take = (channel: number, c: number) => {
    const indicated = Math.round(c * 100) / 100;
    // A row that was added and not filled is the one that is meant.
    const filled = props.calibration.asFound.filter(
      (p) => typedAt(p.indicated) !== null || typedAt(p.reference) !== null,
    );
    props.form.change({
      deviceId: deviceId(),
      channel,
      calibration: {
        ...props.calibration,
        asFound: [...filled, { indicated, reference: where() === 'ice' ? ICE_C : EMPTY }],
      },
    });
  };

  /** What is said of the reference follows the choice as long as nobody wrote anything else there. */
  const choose = (next: Where) => {
    setWhere(next);
    const { reference, uReference } = props.calibration;
    if (next === 'ice' && reference.trim() === '')
      props.form.change({
        calibration: { ...props.calibration, reference: COMPARISON.iceReference, uReference: ICE_U_K },
      });
    if (next === 'thermometer' && reference === COMPARISON.iceReference && uReference === ICE_U_K)
      props.form.change({ calibration: { ...props.calibration, reference: '', uReference: EMPTY } });
  };

  return (
    <div class="comparison" data-testid="probe-comparison">
      <Choice
        label={COMPARISON.where}
        value={where()}
        options={WHERE.map((value) => ({ value, text: COMPARISON[value] }))}
        onValue={choose}
        testId="comparison-where"
      />
      <p class="small">{where() === 'ice' ? COMPARISON.iceHow : COMPARISON.thermometerHow}</p>
      <For
        each={rows().map((r) => r.channel)}
        fallback={<p class="small muted">{isRig() ? COMPARISON.practice : COMPARISON.none}</p>}
      >
        {(channel) => {
          const row = () => rows().find((r) => r.channel === channel);
          return (
            <div class="comparison-row">
              <span data-testid={`comparison-${channel}`}>
                {COMPARISON.channel(channel, quantity('temperature', row()?.c ?? EMPTY, app.units(), 1))}
              </span>
              <button
                type="button"
                class="button"
                data-testid={`comparison-take-${channel}`}
                disabled={row()?.still !== true}
                onClick={() => take(channel, row()?.c ?? EMPTY)}
              >
                {row()?.still === true ? COMPARISON.take : COMPARISON.moving}
              </button>
            </div>
          );
        }}
      </For>
      <Show when={props.calibration.asFound.some((p) => typedAt(p.reference) === null)}>
        <p class="small" role="status">
          {COMPARISON.typeReference}
        </p>
      </Show>
    </div>
  );
}
