import { createResource, Show } from 'solid-js';
import type { SensorDocument } from '../../job/sensor-document.ts';
import { BENCH } from '../../words/bench.ts';
import { failed, useServices } from '../context.ts';
import { loadAll } from '../documents/store.ts';
import { RecordLines } from './KeptRecords.tsx';

/** The bench records of the device that carries this sensor. A practice is none of them, whatever its name. */
export function SensorBench(props: { sensor: Pick<SensorDocument, 'deviceId'> }) {
  const app = useServices();
  const [all] = createResource(() => loadAll(app, 'bench').catch(failed(app)));
  const own = () =>
    (all()?.kept ?? []).filter(
      ({ document: d }) =>
        !d.practice && props.sensor.deviceId !== null && d.deviceId === props.sensor.deviceId,
    );
  return (
    <>
      <Show
        when={own().length > 0}
        fallback={
          <p class="small muted">
            {props.sensor.deviceId === null ? BENCH.sensorNoDevice : BENCH.sensorNone}
          </p>
        }
      >
        <RecordLines records={own()} />
      </Show>
      <p>
        <a href="#/bench" data-testid="sensor-to-bench">
          {BENCH.toBench}
        </a>
      </p>
    </>
  );
}
