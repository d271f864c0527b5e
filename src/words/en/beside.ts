import type { LinkError } from '../../link/status.ts';
import type { Advice } from './link.ts';

/** The second adapter: temperatures beside the pressure. */
export const BESIDE = {
  title: 'Temperatures from a second adapter',
  text: 'Pressure, guard and button stay with the device that is connected; of the second one only temperatures are read, at the time of this computer’s clock. Either goes on when the other is lost. A second pressure is none of it: that needs one device with both.',
  device: 'Connect a thermometer of the protocol',
  mapped: {
    registers: (name: string) => `Read the second bus by “${name}”`,
    columns: (name: string) => `Read the second plain line by “${name}”`,
  },
  known: (deviceId: string) => `Connect ${deviceId} again`,
  knownText: 'It was read beside this device before. Its port is taken without asking again.',
  state: (deviceId: string, state: string) => `Second adapter ${deviceId}: ${state}`,
  unnamed: 'not known yet',
  disconnect: 'Disconnect the second adapter',
  unread: 'It is connected and the run does not read it yet.',
  read: 'Read it in this run',
  refused: 'The run does not take it as it stands. Apply the job sheet, and try again.',
  doubt: (text: string) => `Second adapter. ${text}`,
};

export const BESIDE_LOST: Advice = {
  title: 'The second adapter is gone',
  todo: 'Its temperatures are missing; the pressure goes on. Push its cable in: it comes back by itself.',
};

/** Where a fault asks for something else of a second adapter than of the device with the pressure. */
export const BESIDE_ERROR: { readonly [E in LinkError]?: Advice } = {
  'port-gone': BESIDE_LOST,
  'other-device': {
    title: 'Another second adapter answers',
    todo: 'It is not read. Put the first one back, or disconnect the second adapter and connect this one.',
  },
  rescaled: {
    title: 'The second adapter came back with another scale',
    todo: 'By the first scale it would read wrong and look right, so it is not read. Disconnect it and connect it again to take the new scale.',
  },
};
