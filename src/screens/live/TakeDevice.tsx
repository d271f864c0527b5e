import { createSignal, Show } from 'solid-js';
import { Confirm } from '../../widgets/Dialog.tsx';
import { LIVE } from '../../words/live.ts';
import { useServices } from '../context.ts';
import { takeDevice } from './take-device.ts';

/** Another device answers in a run: what else can be done than to put the first one back. */
export function TakeDevice() {
  const app = useServices();
  const [asking, setAsking] = createSignal(false);
  const [busy, setBusy] = createSignal(false);
  const other = () => {
    const run = app.live.run();
    const link = app.live.link();
    return run === null || link === null || run.practice !== (link.kind === 'rig') ? null : link.other;
  };
  const take = () => {
    const device = other();
    setAsking(false);
    if (device === null || busy()) return;
    setBusy(true);
    takeDevice(app, device)
      .catch(app.fail)
      .finally(() => setBusy(false));
  };
  return (
    <Show when={other()}>
      {(device) => (
        <>
          <button
            type="button"
            class="button wide"
            data-testid="take-device"
            disabled={busy()}
            onClick={() => setAsking(true)}
          >
            {LIVE.takeDevice(device().hello.deviceId)}
          </button>
          <Confirm
            open={asking()}
            title={LIVE.takeDevice(device().hello.deviceId)}
            text={LIVE.takeText}
            yes={LIVE.takeYes}
            onYes={take}
            onNo={() => setAsking(false)}
          />
        </>
      )}
    </Show>
  );
}
