/** The sensor of a simulated fill: lag, correlated noise, spikes, error and steps of its converter. */
import type { Random } from '../../src/rig/random.ts';
import type { Sensor } from './fills-scenario.ts';

/** Readings of a sensor that starts at zero; to be asked once a period, with the true pressure at its place, bar. */
export function createSensor(sensor: Sensor, noise: Random): (n: number, trueBar: number) => number {
  const period = 1 / sensor.rateHz;
  const step = sensor.spanBar / (2 ** sensor.bits - 1);
  const phi = sensor.noiseTauS > 0 ? Math.exp(-period / sensor.noiseTauS) : 0;
  const drive = Math.sqrt(1 - phi * phi) * sensor.noiseBar;
  const lagShare = sensor.lagS > 0 ? 1 - Math.exp(-period / sensor.lagS) : 1;
  let correlated = 0;
  let lagged = 0;
  let spikeAt = -9;
  return (n, trueBar) => {
    lagged += lagShare * (trueBar - lagged);
    correlated = phi * correlated + drive * noise.normal();
    let reading = sensor.offsetBar + sensor.gain * lagged + correlated;
    // A spike is one sample wide and rare: two inside three samples would be no spike but a fault of the sensor.
    if (sensor.spikeEveryS > 0 && n - spikeAt > 5 && noise.chance(period / sensor.spikeEveryS)) {
      spikeAt = n;
      reading += (noise.chance(0.5) ? 1 : -1) * noise.logRange(0.05, sensor.spanBar);
    }
    const counts = Math.max(-0.1 * sensor.spanBar, Math.min(1.05 * sensor.spanBar, reading)) / step;
    return Math.round(counts) * step;
  };
}
