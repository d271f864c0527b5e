import type { LinkError, LinkState } from '../../link/status.ts';
import type { StoreErrorCode } from '../../record/stores/store.ts';

/** What happened and what the user should do about it. */
export interface Advice {
  readonly title: string;
  readonly todo: string;
}

export const LINK_STATE: Record<LinkState, string> = {
  unsupported: 'No serial port in this browser',
  'no-permission': 'No device allowed yet',
  idle: 'Not connected',
  opening: 'Opening the port',
  greeting: 'Asking the device who it is',
  streaming: 'Connected',
  stopped: 'Connected, not measuring',
  lost: 'Device gone',
  retrying: 'Trying again',
  closing: 'Closing',
};

export const LINK_ERROR: Record<LinkError, Advice> = {
  'port-busy': {
    title: 'The port is in use',
    todo: 'Close the other tab or program that holds the device, then connect again.',
  },
  'port-gone': {
    title: 'The device is gone',
    todo: 'Push the cable in, the computer’s end first; go to the other end only when the dial gauge shows zero. The run goes on by itself when the device is back.',
  },
  'open-failed': {
    title: 'The port would not open',
    todo: 'Take the cable out of the computer, wait five seconds, put it in again and connect.',
  },
  'no-hello': {
    title: 'Nothing answers on this port',
    todo: 'Nothing came from it. Choose another port, or check that the device has power and its firmware speaks this protocol.',
  },
  speed: {
    title: 'Bytes come, but no text: a wrong speed or a disturbed cable',
    todo: 'Set the device to 500000 or 115200 baud and connect again. If it worked before, change the cable.',
  },
  'not-protocol': {
    title: 'What comes is text, but none of this protocol',
    todo: 'Choose another port, or load a firmware into the device that speaks this protocol.',
  },
  'line-ends': {
    title: 'The lines of the device end in CR',
    todo: 'No line is read, so that nothing is guessed. Its firmware must end each line with LF alone (protocol, 1 Lines).',
  },
  check: {
    title: 'The check at the end of the lines does not match',
    todo: 'If it worked before, change the cable. If the firmware is new: CRC-32C over all up to and including the last comma, as eight lower-case hex digits (protocol, 1 Lines).',
  },
  form: {
    title: 'The lines have another form than the protocol',
    todo: 'Their check is right, so the firmware means them. Update this app or the firmware of the device.',
  },
  deaf: {
    title: 'The device is heard and does not hear',
    todo: 'Its lines come, and no command is answered. Check the wire that leads to the device, and its connectors.',
  },
  'half-hello': {
    title: 'The device does not say all of its channels',
    todo: 'It answers, but a line of its hello is missing. Connect again; if that does not help, update its firmware.',
  },
  version: {
    title: 'The device speaks another protocol version',
    todo: 'Update this app or the firmware of the device.',
  },
  'other-device': {
    title: 'Another device answers',
    todo: 'It is not read and keeps no limit. Connect the first one again; in a run, this one can be taken instead. Without a run: disconnect, connect it, take its zero.',
  },
  rescaled: {
    title: 'The device came back with another scale',
    todo: 'It has the name of the device that was read, and its channels are others: by the first scale its pressure would read wrong and look right. It is not read and not told the limit. Go by the dial gauge. Connect the device as it was; in a run, it can be taken with its new scale. Without a run: connect again and take its zero.',
  },
  'no-pressure': {
    title: 'The device has no pressure channel',
    todo: 'Connect the device that carries the pressure sensor.',
  },
  'no-temperature': {
    title: 'The second adapter has no temperature',
    todo: 'It serves for temperatures alone, beside the device with the pressure. Choose the port of the thermometer.',
  },
  'same-port': {
    title: 'This port is read already',
    todo: 'The pressure comes from it. Choose the other adapter’s port.',
  },
  'alike-ports': {
    title: 'Both adapters went away, and they look alike',
    todo: 'A bus or a plain line has no name of its own, so nobody could tell which port is which: nothing is read until you connect each of them again. Adapters of two kinds, or plugged in one after the other, come back by themselves.',
  },
  'command-failed': {
    title: 'The device did not answer a command',
    todo: 'Readings may go on, but it cannot be told its limit. Check the cable and its connectors.',
  },
  'write-failed': {
    title: 'The device could not be written to',
    todo: 'Check the cable. The device’s own limit may be off.',
  },
  'read-recovered': {
    title: 'The cable was disturbed and works again',
    todo: 'A gap is marked. If it comes again, change the cable.',
  },
  'limit-not-kept': {
    title: 'The device does not keep the limit that was asked',
    todo: 'Compare the limit shown with the packer’s plate: under pressure it can only be lowered. A device without an alarm of its own keeps none: stay within hearing of this computer, the dial gauge in sight.',
  },
  'no-unit': {
    title: 'No unit answers on the bus',
    todo: 'Check its power and that A and B are not crossed. Then compare with its data sheet what the register map says: the unit’s address, speed and parity.',
  },
  'bus-garbled': {
    title: 'What comes over the bus is garbled',
    todo: 'Two units with the same address answer at once, parity or speed differ, or the cable is disturbed. Leave one unit on the bus and try again.',
  },
  'other-master': {
    title: 'Somebody else asks on this bus',
    todo: 'A bus has one master. Take the other one off, or read another bus: two of them garble each other’s answers.',
  },
  'no-columns': {
    title: 'Lines come, and what the column map asks for is not in them',
    todo: 'Nothing is guessed: a line with other columns is kept in the record and not read. Open the column map and compare it with the last line.',
  },
};

/** While a device is looked for at one speed after the other. */
export const TRYING = (baudRate: number): string => `Trying ${baudRate} baud.`;
export const STOP_TRYING: string = 'Stop trying';
/** Before the newest line that could not be read. */
export const LAST_LINE: string = 'Last line:';

/** The device keeps a rate that its serial line can't carry. */
export const LINE_TOO_SLOW = (asked: string, most: string, baudRate: number): Advice => ({
  title: `The device claims ${asked} readings a second, and at ${baudRate} baud its line carries ${most}`,
  todo: 'Readings will be lost or come late. Ask for fewer on the job sheet, or set the device to a higher speed and connect again.',
});

/** The only pressure channel is a voltage, and nobody says which voltages are the ends of its span. */
export const SPAN_UNKNOWN: Advice = {
  title: 'The scale of the pressure sensor is not known',
  todo: 'The device sends a voltage and does not say which voltages are zero and full scale, so no pressure is shown. Enter both in the sensor’s document and name that sensor on the job sheet.',
};

const STORE_ERROR: Record<StoreErrorCode, Advice> = {
  full: {
    title: 'The disk is full',
    todo: 'Remove old runs after saving them elsewhere. The watch goes on.',
  },
  denied: {
    title: 'The browser refuses to store',
    todo: 'Leave private browsing, or allow storage for this page.',
  },
  busy: { title: 'The record is open elsewhere', todo: 'Close the other tab of this app.' },
  missing: { title: 'Not found', todo: 'It was removed, or belongs to another browser or computer.' },
  stale: {
    title: 'It was changed elsewhere meanwhile',
    todo: 'Open it again and repeat the change.',
  },
  corrupt: {
    title: 'The stored record is damaged',
    todo: 'The intact part is shown; the damaged part is named.',
  },
  failed: {
    title: 'Storing failed',
    todo: 'Try again. If it fails again, restart the browser. The watch goes on.',
  },
  silent: {
    title: 'The browser’s storage does not answer',
    todo: 'Nothing can be kept now. With the packer empty, close the browser with all its windows and open it again. The watch goes on.',
  },
};

/** Why the record cannot be written, within another sentence. */
export const STORE_CAUSE: Record<StoreErrorCode, string> = {
  full: 'the disk is full',
  denied: 'the browser refuses to store',
  busy: 'the record is open elsewhere',
  missing: 'not found',
  stale: 'it was changed elsewhere meanwhile',
  corrupt: 'the stored record is damaged',
  failed: 'storing failed',
  silent: 'the browser’s storage does not answer',
};

/** What the engine itself may answer beside the faults of link and store. */
export type EngineOnlyError =
  | 'run-locked'
  | 'no-run'
  | 'run-open'
  | 'not-connected'
  | 'not-a-rig'
  | 'refused'
  | 'bad-request'
  | 'internal';

const ENGINE_ONLY: Record<EngineOnlyError, Advice> = {
  'run-locked': {
    title: 'Another tab runs this job',
    todo: 'Go to that tab, or close it and try again.',
  },
  'no-run': { title: 'No run is open', todo: 'Start recording first.' },
  'run-open': { title: 'A run is open already', todo: 'End the open run first.' },
  'not-connected': { title: 'No device is connected', todo: 'Connect the device or the practice rig.' },
  'not-a-rig': { title: 'This works on the practice rig only', todo: 'Connect the practice rig.' },
  refused: { title: 'Refused', todo: 'The reason stands beside it.' },
  'bad-request': {
    title: 'The program asked itself something wrong',
    todo: 'This is a fault of the program. Restart it; the record is kept.',
  },
  internal: {
    title: 'The program failed inside',
    todo: 'Watch the dial gauge. Reload the page; an open run is offered again.',
  },
};

/** One table for whatever the engine may answer. */
export const ENGINE_ERROR: Record<LinkError | StoreErrorCode | EngineOnlyError, Advice> = {
  ...LINK_ERROR,
  ...STORE_ERROR,
  ...ENGINE_ONLY,
};
