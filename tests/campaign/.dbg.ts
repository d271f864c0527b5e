import { createSleeve } from '../../src/rig/sleeve.ts';
import { createObserver, observe } from '../../src/watch/cure/observer.ts';
import { drawSleeve } from './sleeves-scenario.ts';

const place = process.argv[2] as 'sleeve' | 'air';
for (const seed of process.argv.slice(3).map(Number)) {
  const s = drawSleeve(place, seed);
  const o = { ...s.options, seep: null };
  const sl = createSleeve(o);
  const tr = sl.truth;
  console.log(
    seed,
    s.pipe,
    o.material,
    o.wallMm!.toFixed(0),
    o.sleeveMm!.toFixed(1),
    'rub',
    o.rubberMm!.toFixed(1),
    o.ground,
    'g',
    o.groundC!.toFixed(1),
    's0',
    o.sleeveC!.toFixed(1),
    'p0',
    o.packerC!.toFixed(1),
    'H',
    o.kinetics.heatJkg.toFixed(0),
    'film',
    o.filmWm2K!.toFixed(1),
    'ends',
    o.endsWmK!.toFixed(2),
  );
  let a, b;
  for (let t = 10; t < 20 * 3600 && tr.leastCured < s.criterion; t += 10) {
    sl.step(10);
    const m = place === 'air' ? tr.airC : tr.sleeveInnerC;
    if (!a) {
      a = createObserver(s.pipe, place, 'likely', m, o.groundC!);
      b = createObserver(s.pipe, place, 'cold', m, o.groundC!);
    }
    const fa = observe(a, 10, m, o.groundC!),
      fb = observe(b!, 10, m, o.groundC!);
    if (t % 1200 === 0)
      console.log(
        (t / 60).toFixed(0).padStart(5),
        'air',
        tr.airC.toFixed(1),
        'in',
        tr.sleeveInnerC.toFixed(1),
        'out',
        tr.sleeveOuterC.toFixed(1),
        '| likely',
        fa.toFixed(1),
        'cold',
        fb.toFixed(1),
        'probe node',
        a.t[a.probe]!.toFixed(1),
        'deg',
        tr.leastCured.toFixed(2),
      );
  }
}
