import type { Format } from '../create-format.ts';
import { type OrderWords, ordersOf } from '../said/orders.ts';
import type { alarms } from './alarms.ts';

/**
 * One name for each tap, and no line that reads as its opposite where the eye takes in one line of the two, or both
 * across: 'shut air, vent' was read as 'shut the air vent'. No order sends a person towards a packer that may be full.
 */
const WORDS: OrderWords = {
  VERB: {
    'air-off': { lines: ['AIR OFF', 'NOW'], spoken: 'Air off, now.' },
    'air-off-vent': { lines: ['AIR OFF', 'OPEN VENT'], spoken: 'Air off. Then open the vent.' },
    'air-off-clear': { lines: ['AIR OFF', 'GET CLEAR'], spoken: 'Air off. Get clear.' },
    'keep-clear': { lines: ['KEEP', 'CLEAR'], spoken: 'Keep clear.' },
    'keep-clear-asking': { lines: ['KEEP', 'CLEAR'], spoken: 'Keep clear. Are you letting down?' },
    'find-loss': { lines: ['FIND THE', 'LOSS'], spoken: 'Find the loss first. Keep clear.' },
    'find-leak': { lines: ['FIND THE', 'LEAK'], spoken: 'Find the leak.' },
    'top-up': { lines: ['TOP UP', 'SLOWLY'], spoken: 'Top up slowly.' },
    'check-gauge': { lines: ['CHECK', 'THE GAUGE'], spoken: 'Check the dial gauge.' },
    'check-device': { lines: ['CHECK', 'DEVICE'], spoken: 'Check the device.' },
    'check-cable': { lines: ['CHECK THE', 'CABLE'], spoken: 'Check the cable.' },
    'check-cables': { lines: ['CHECK THE', 'CABLES'], spoken: 'Check the sensors’ cables.' },
    'check-probe': { lines: ['CHECK THE', 'PROBE'], spoken: 'Check the probe.' },
    'check-power': { lines: ['CHECK', 'POWER'], spoken: 'Check the power.' },
    'check-valve': { lines: ['CHECK THE', 'VALVE'], spoken: 'Check the supply valve.' },
    'feel-sample': { lines: ['FEEL THE', 'SAMPLE'], spoken: 'Feel the witness sample.' },
    'let-out-a-little': { lines: ['LET OUT', 'A LITTLE'], spoken: 'Let a little air out.' },
    'go-by-gauge': { lines: ['GO BY THE', 'GAUGE'], spoken: 'Go by the dial gauge.' },
    'slow-down': { lines: ['SLOW', 'DOWN'], spoken: 'Slow down.' },
    'seat-or-take-out': { lines: ['SEAT OR', 'TAKE OUT'], spoken: 'Seat the sleeve, or take it out.' },
    'seat-or-let-down': { lines: ['SEAT OR', 'LET DOWN'], spoken: 'Seat the sleeve, or let down.' },
    'vent-again': { lines: ['VENT', 'AGAIN'], spoken: 'Vent again. The packer is not empty.' },
    'lower-regulator': { lines: ['LOWER', 'REGULATOR'], spoken: 'Turn the regulator down.' },
    'wait-or-warm': { lines: ['WAIT OR', 'WARM PIPE'], spoken: 'Wait, or warm the pipe.' },
    'write-down': { lines: ['WRITE IT', 'DOWN'], spoken: 'Write the pressure down.' },
    'keep-screen-on': { lines: ['KEEP THE', 'SCREEN ON'], spoken: 'Keep the screen on.' },
  },
  letOutTo: (pressure) => ({ lines: ['LET OUT', `TO ${pressure}`], spoken: `Let out to ${pressure}.` }),
  EVERYONE_CLEAR: { text: 'EVERYONE CLEAR', spoken: 'Everyone clear.' },
  FIGURE: {
    'at-least': 'At least',
    rated: 'Rated',
    'over-rated-by': 'Over rated by',
    ceiling: 'Ceiling',
    'if-left-open': 'If left open',
    'supply-now': 'Supply now',
    supply: 'Supply',
    'may-stand-over': 'May stand over',
    'it-stood-at': 'It stood at',
    'supply-proved-at': 'Supply proved at',
    'last-reading': 'Last reading',
    'no-reading-for': 'No reading for',
    'limit-in-device': 'Limit in device',
    'limit-here': 'Limit here',
    'reading-here': 'Reading here',
    now: 'Now',
    'hold-floor': 'Hold floor',
    'hold-floor-in': 'Hold floor in',
    leak: 'Leak',
    'leave-at-least': 'Leave at least',
    sensor: 'Sensor',
    'readings-a-second': 'Readings a second',
    'jumped-by': 'Jumped by',
    'dial-gauge': 'Dial gauge',
    packer: 'Packer',
    second: 'Second',
    'came-back-to': 'Came back to',
    'zero-is-up-to': 'Zero is up to',
    coldest: 'Coldest',
    'pot-life-left': 'Pot life left',
    'usual-time': 'Usual time',
    pressure: 'Pressure',
    'asleep-for': 'Asleep for',
    'test-allows': 'Test allows',
  },
  NOW: 'now',
};

export function orders(f: Format, { alarmSentence }: ReturnType<typeof alarms>) {
  return {
    /** What an alarm says from three metres, by its code, its own view and the stage. */
    VERBS: ordersOf(f, WORDS, alarmSentence),
  };
}
