/** Connection states and error codes as data. A leaf: nothing here opens a port. */

export type LinkState =
  | 'unsupported' // this browser has no Web Serial: review and verify still work
  | 'no-permission' // no port was ever granted here: not the same as disconnected
  | 'idle' // a port may be opened
  | 'opening'
  | 'greeting' // open; hello asked for and not yet complete
  | 'streaming'
  | 'stopped' // greeted, stream not running
  | 'lost' // the port went away; waiting for it to come back
  | 'retrying' // back-off before opening again
  | 'closing';

/** What a state says to whoever waits for readings. */
const SAYS: {
  readonly [S in LinkState]: {
    /** A device was found and is meant to be read, even where it is away for the moment. */
    readonly wanted: boolean;
    /** It went away without being told to. */
    readonly away: boolean;
    /** Nothing is meant to come: the port is closed by hand, or the stream was stopped. */
    readonly closed: boolean;
  };
} = {
  unsupported: { wanted: false, away: false, closed: false },
  'no-permission': { wanted: false, away: false, closed: false },
  idle: { wanted: false, away: false, closed: true },
  opening: { wanted: false, away: false, closed: false },
  greeting: { wanted: false, away: false, closed: false },
  streaming: { wanted: true, away: false, closed: false },
  stopped: { wanted: true, away: false, closed: true },
  lost: { wanted: true, away: true, closed: false },
  retrying: { wanted: true, away: true, closed: false },
  closing: { wanted: false, away: false, closed: true },
};

// A log of a later version may hold a state that is none here: it says nothing.
export const isWanted = (state: LinkState): boolean => SAYS[state]?.wanted ?? false;
export const isAway = (state: LinkState): boolean => SAYS[state]?.away ?? false;
export const isClosed = (state: LinkState): boolean => SAYS[state]?.closed ?? false;

/** Each has a text in the catalogue that says what the user should do. */
export type LinkError =
  | 'port-busy' // another tab or program holds it
  | 'port-gone'
  | 'open-failed'
  | 'no-hello' // nothing came at all
  | 'speed' // bytes come and are no text: another speed
  | 'not-protocol' // text comes and is none of this protocol
  | 'line-ends' // lines end in CR
  | 'check' // lines whose check does not match
  | 'form' // lines whose check is right and whose form is not
  | 'deaf' // frames come, and what is said to the device is not answered
  | 'half-hello' // commands are answered, but a line of the hello is missing
  | 'version' // a protocol version this program does not know
  | 'other-device' // not the device this run began with
  | 'rescaled' // the device by its name, with other channels or scales than were read
  | 'no-pressure' // the device has no pressure channel
  | 'no-temperature' // the second adapter has no temperature channel
  | 'same-port' // the second adapter is the first one's port
  | 'alike-ports' // two adapters went away together that call themselves the same
  | 'command-failed' // a command was not answered after its retries
  | 'write-failed'
  | 'read-recovered' // overrun, break, framing, parity: the stream went on
  | 'limit-not-kept' // the device answered another limit than asked
  | 'no-unit' // no unit of the bus answers
  | 'bus-garbled' // answers come whose check does not match
  | 'other-master' // somebody else asks on the bus
  | 'no-columns'; // lines come, and what the map asks for is not in them
