import type { SensingState } from '../sensing/state.ts';

/** A device as it described itself: hello and channel frames. */
export interface DeviceDescription {
  readonly hello: NonNullable<SensingState['hello']>;
  readonly channels: SensingState['channels'];
  /** The second adapter beside it, for temperatures. */
  readonly beside?: Omit<DeviceDescription, 'beside'>;
}
