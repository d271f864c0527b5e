import { sleep } from '../e2e/stage.ts';
import { ANY, type Expected } from './expect.ts';
import { ADDED_MS, type Fault, isUp, op, settled } from './fault.ts';
import { plugIn, type Site } from './site.ts';
import type { WalkStage } from './walk.ts';

/** Faults of device, cable and sensors, made by the C device's operations (firmware-protocol/host/README.md). */

/** A port that goes away or another device is told within this (the project's own rule), ms. */
const GONE_MS = 1200;

/** The crew has said 'done' and the line read zero: no alarm, but no good-looking number either (docs/alarms.md, pressure-lost). */
const putAway = (withinMs: number): Expected => ({
  shows: ['reading-stale', 'reading-lost'],
  priority: null,
  withinMs,
  never: { shows: ['alarm-pressure-lost'], forMs: 6000 },
});

const lost =
  (withinMs: (stage: WalkStage) => number) =>
  (stage: WalkStage): Expected =>
    stage === 'done'
      ? putAway(1500)
      : { shows: ['alarm-pressure-lost'], priority: 'urgent', withinMs: withinMs(stage) };

/** 1 s; in a hold at rest 5 s. */
const silent = lost((stage) => (stage === 'hold' ? 5000 : 1000) + ADDED_MS);

const told = (what: string, priority: 'urgent' | 'high' | 'low', withinMs: number) => (): Expected => ({
  shows: [`alarm-${what}`],
  priority,
  withinMs,
});

const calm = (forMs: number) => (): Expected => ({ allows: [], forMs });

/** One operation makes it, 'clear' ends it. */
function byOp(line: string, back?: string): Pick<Fault, 'how' | 'inject' | 'clear'> {
  return {
    how: `device: ${line}`,
    inject: async (site) => {
      await op(site, line);
      return undefined;
    },
    clear: (site) => op(site, back ?? 'clear'),
  };
}

const plug = (site: Site) => plugIn(site);

export const DEVICE_FAULTS: readonly Fault[] = [
  {
    name: 'unplug',
    title: 'The plug is pulled',
    ...byOp('unplug'),
    clear: plug,
    expects: lost(() => GONE_MS),
    recorded: ['gap port'],
  },
  {
    name: 'hangup',
    title: 'The port hangs up and nobody says that the device is gone',
    ...byOp('hangup'),
    clear: plug,
    expects: lost(() => GONE_MS),
    recorded: ['gap port'],
  },
  {
    name: 'remove',
    title: 'The system says that the device is gone; its line is still there',
    ...byOp('remove'),
    clear: plug,
    expects: lost(() => GONE_MS),
    recorded: ['gap port'],
  },
  {
    name: 'reset',
    title: 'The device starts anew',
    ...byOp('reset'),
    // The restart is a child of the lost reading where the device is away for long.
    expects: () => ({
      shows: ['alarm-device-reset', 'alarm-pressure-lost'],
      priority: 'low',
      withinMs: 2000 + ADDED_MS,
    }),
    recorded: ['device reset'],
  },
  {
    name: 'watchdog',
    title: 'The device hung and restarted itself',
    ...byOp('reset watchdog'),
    expects: () => ({
      shows: ['alarm-device-fault', 'alarm-device-reset', 'alarm-pressure-lost'],
      priority: 'low',
      withinMs: 2000 + ADDED_MS,
    }),
    recorded: ['device reset'],
  },
  {
    name: 'garbage',
    title: 'A burst of bytes that are no lines, as from a compressor motor',
    how: 'device: garbage 400, three times in 0.3 s',
    async inject(site) {
      for (let i = 0; i < 3; i++) {
        await op(site, 'garbage 400');
        await sleep(100);
      }
      return undefined;
    },
    clear: (site) => op(site, 'clear'),
    expects: told('garbage', 'low', 1000 + ADDED_MS),
  },
  {
    name: 'silence',
    title: 'The device is silent for 8 s; its port stays open',
    ...byOp('fault silence 8000'),
    expects: silent,
  },
  {
    name: 'stall',
    title: 'The wire takes nothing for 8 s; the device drops lines',
    ...byOp('fault stall 8000'),
    expects: silent,
  },
  {
    name: 'deaf',
    title: 'The device does not hear commands for 8 s; readings come',
    ...byOp('fault deaf 8000'),
    expects: told('device-deaf', 'high', 3000 + ADDED_MS),
  },
  {
    name: 'drop',
    title: 'Forty samples are missing and the next line says so',
    ...byOp('fault drop 40'),
    expects: calm(1500),
    recorded: ['gap dropped'],
  },
  {
    name: 'swap',
    title: 'Ten pairs of lines arrive in the wrong order',
    ...byOp('fault swap 10'),
    // By their numbers: nothing restarted, nothing is lost.
    expects: calm(2500),
    recorded: ['gap out-of-order'],
  },
  {
    name: 'device-clock',
    title: 'The device’s clock jumps ahead by 20 s',
    ...byOp('fault clock 20000'),
    // The device takes the host for gone for a moment, which it says.
    expects: () => ({ allows: ['alarm-clock-jump'], forMs: 2500 }),
    recorded: ['gap device-clock'],
  },
  {
    name: 'rate',
    title: 'The device falls from 50 to 5 samples a second by itself',
    ...byOp('fault rate 5', 'fault rate 50'),
    // Of the stages in which a guard that sees late is a danger.
    expects: (stage) =>
      stage === 'prepare' || isUp(stage)
        ? told('slow-readings', 'low', 5000 + ADDED_MS)()
        : { allows: [], forMs: 2500 },
  },
  {
    name: 'supply',
    title: 'The sensor’s supply sags from 5 to 4 V',
    ...byOp('fault supply 4000'),
    expects: told('supply-low', 'low', 2000 + ADDED_MS),
  },
  {
    name: 'open-wire',
    title: 'The wire of the pressure sensor breaks',
    ...byOp('fault open 0'),
    // While the gear is put away a broken wire may be a sensor that is unscrewed; the device says what it sees.
    expects: (stage) =>
      stage === 'done'
        ? { shows: ['reading-stale', 'reading-lost'], priority: null, withinMs: 500 + ADDED_MS }
        : told('pressure-lost', 'urgent', 500 + ADDED_MS)(),
  },
  {
    name: 'open-probe',
    title: 'The wire of the sleeve’s thermocouple breaks',
    ...byOp('fault open 2'),
    // Lost after 5 s without a value, and an on-delay of 5 s; of the stages in which the cure counts.
    expects: (stage) => (isUp(stage) ? told('temperature-lost', 'low', 10_000 + ADDED_MS)() : calm(2000)()),
  },
  {
    name: 'stuck',
    title: 'The pressure’s counts stand still',
    ...byOp('fault stuck 0'),
    // A reading counts as stuck against noise that was seen before: a device with a little more of it.
    before: (site) => op(site, 'fault noise 0 3'),
    clear: async (site) => {
      await op(site, 'clear');
      await op(site, 'fault noise 0 3');
    },
    expects: (stage) =>
      told('stuck', stage === 'seat' || stage === 'inflate' ? 'urgent' : 'high', 8000 + ADDED_MS)(),
  },
  {
    name: 'offset-high',
    title: 'The sensor suddenly reads 2.44 bar too high',
    ...byOp('fault offset 0 13000'),
    expects: () => ({
      shows: ['alarm-over-rated', 'alarm-ceiling', 'alarm-rising', 'alarm-device-trip'],
      priority: 'urgent',
      withinMs: 100 + ADDED_MS,
    }),
  },
  {
    name: 'offset-low',
    title: 'The sensor suddenly reads 0.28 bar too low',
    how: 'device: fault offset 0 -1500',
    async inject(site, stage) {
      const from = await settled(site, stage);
      await op(site, 'fault offset 0 -1500');
      return from;
    },
    clear: (site) => op(site, 'clear'),
    // At zero no pressure is under zero, in a hold it is a fast fall; else it could be the packer's own.
    expects(stage) {
      if (stage === 'prepare' || stage === 'done')
        return {
          shows: ['reading-lost', 'reading-stale', 'alarm-pressure-lost'],
          priority: null,
          withinMs: 500 + ADDED_MS,
        };
      if (stage === 'hold') return told('fast-fall', 'high', 1000 + ADDED_MS)();
      return { allows: ANY, forMs: 1000 };
    },
  },
  {
    name: 'spike',
    title: 'Single conversions are 1.7 bar too high, twenty times in 3 s',
    how: 'device: fault spike 0 9000, every 150 ms',
    async inject(site) {
      for (let i = 0; i < 20; i++) {
        await op(site, 'fault spike 0 9000');
        await sleep(150);
      }
      return undefined;
    },
    clear: (site) => op(site, 'clear'),
    // The device's own guard looks at every conversion by itself (SPEC.md, part 7).
    expects: () => ({ allows: ['alarm-device-trip'], forMs: 4000 }),
  },
  {
    name: 'noise',
    title: 'The pressure is noisy: standard deviation 30 mbar',
    ...byOp('fault noise 0 160'),
    expects: calm(4000),
  },
  {
    name: 'other-device',
    title: 'Another device with the same plug is put in',
    how: 'unplug; a second C device with another id on the same USB identity is plugged in',
    async inject(site) {
      await site.swapDevice();
      return undefined;
    },
    clear: (site) => site.swapBack(),
    expects: () => ({
      shows: ['link-error'],
      says: 'Another device answers',
      priority: null,
      withinMs: GONE_MS,
    }),
    recorded: ['device other'],
  },
  {
    name: 'limit-store',
    title: 'The device cannot store its limit, and starts anew',
    how: 'device: fault store, then reset',
    async inject(site) {
      await op(site, 'fault store');
      await op(site, 'reset');
      return undefined;
    },
    clear: (site) => op(site, 'clear'),
    expects: () => ({
      shows: ['alarm-device-fault', 'alarm-device-unarmed', 'alarm-device-reset', 'alarm-pressure-lost'],
      priority: 'low',
      withinMs: 4000 + ADDED_MS,
    }),
  },
];
