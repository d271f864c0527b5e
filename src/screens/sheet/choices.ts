import { createResource } from 'solid-js';
import type { Named } from '../../job/bundle.ts';
import type { PackerDocument } from '../../job/packer-document.ts';
import type { ResinDocument } from '../../job/resin-document.ts';
import type { SensorDocument } from '../../job/sensor-document.ts';
import { failed, type Services } from '../context.ts';
import { DEMO } from '../demo.ts';
import { loadAll } from '../documents/store.ts';

/** Packers, resins and sensors that a sheet may name. Those of the practice job are there only where named. */
export interface Choices {
  packers(named: string | null): readonly Named<PackerDocument>[];
  resins(named: string | null): readonly Named<ResinDocument>[];
  sensors(named: readonly (string | null)[]): readonly Named<SensorDocument>[];
}

export function createChoices(app: Services): Choices {
  const [packers] = createResource(() => loadAll(app, 'packer').catch(failed(app)));
  const [resins] = createResource(() => loadAll(app, 'resin').catch(failed(app)));
  const [sensors] = createResource(() => loadAll(app, 'sensor').catch(failed(app)));
  const demo = <T>(of: Named<T> | null, named: string | null) => (of !== null && of.id === named ? [of] : []);
  return {
    packers: (named) => [
      ...demo(DEMO.packer, named),
      ...(packers()?.kept ?? []).filter((k) => !k.document.retired || k.id === named),
    ],
    resins: (named) => [...demo(DEMO.resin, named), ...(resins()?.kept ?? [])],
    sensors: (named) => [
      ...DEMO.sensors.filter((s) => named.includes(s.id)),
      ...(sensors()?.kept ?? []).filter((k) => !k.document.retired || named.includes(k.id)),
    ],
  };
}
