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

/** Each has a text in the catalogue that says what the user should do. */
export type LinkError =
  | 'port-busy' // another tab or program holds it
  | 'port-gone'
  | 'open-failed'
  | 'no-hello' // nothing that speaks the protocol answered
  | 'version' // a protocol version this program does not know
  | 'other-device' // not the device this run began with
  | 'no-pressure' // the device has no pressure channel
  | 'command-failed' // a command was not answered after its retries
  | 'write-failed'
  | 'read-recovered' // overrun, break, framing, parity: the stream went on
  | 'limit-not-kept'; // the device answered another limit than asked
