import { createSignal, Show } from 'solid-js';
import { Key } from '../../widgets/Key.tsx';
import { FACE } from '../../words/face.ts';
import { LIVE } from '../../words/live.ts';
import { useServices } from '../context.ts';
import { takeDevice } from './take-device.ts';

/** Another device answers in a run: what else can be done than to put the first one back. */
export function TakeDevice() {
  const app = useServices();
  const [busy, setBusy] = createSignal(false);
  const other = () => {
    const run = app.live.run();
    const link = app.live.link();
    return run === null || link === null || run.practice !== (link.kind === 'rig') ? null : link.other;
  };
  const rescaled = () => app.live.link()?.error === 'rescaled';
  const take = () => {
    const device = other();
    if (device === null || busy()) return;
    setBusy(true);
    takeDevice(app, device, rescaled())
      .catch(app.fail)
      .finally(() => setBusy(false));
  };
  return (
    <Show when={other()}>
      {(device) => (
        <div class="stack">
          <p class="small">{rescaled() ? LIVE.takeRescaledText : LIVE.takeText}</p>
          <Key
            class="wide"
            means={device().hello.deviceId}
            hold
            data-testid="take-device"
            disabled={busy()}
            onPress={take}
          >
            <span>{LIVE.takeDevice(device().hello.deviceId)}</span>
            <small>{FACE.hold}</small>
          </Key>
        </div>
      )}
    </Show>
  );
}
