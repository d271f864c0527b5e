import { judgeSleeve, METHODS } from './sleeves-judge.ts';
import { drawSleeve, PROBES } from './sleeves-scenario.ts';

const n = Number(process.argv[2] ?? 100);
const from = Number(process.argv[3] ?? 910000);
const q = (a: number[], p: number) => {
  const s = [...a].sort((x, y) => x - y);
  return s[Math.min(s.length - 1, Math.floor(p * s.length))] ?? NaN;
};
const ms = (a: number[]) => {
  const b = a.filter(Number.isFinite);
  const m = b.reduce((x, y) => x + y, 0) / b.length;
  return m.toFixed(3) + ' ± ' + Math.sqrt(b.reduce((x, y) => x + (y - m) ** 2, 0) / b.length).toFixed(3);
};
const t0 = Date.now();
const all = [];
for (const probe of PROBES) {
  if (process.env.PL && !process.env.PL.includes(probe)) continue;
  const rs = [];
  for (let i = 0; i < n; i++) rs.push(judgeSleeve(drawSleeve(probe, from + i)));
  all.push(...rs);
  for (const m of process.argv[4] === 'base' ? METHODS : (['program'] as const)) {
    const r = rs.map((x) => x.declaredS[m] / x.trueS);
    console.log(
      probe.padEnd(7),
      m.padEnd(8),
      'early',
      r.filter((x) => x < 1).length,
      'min',
      Math.min(...r).toFixed(2),
      'p1',
      q(r, 0.01).toFixed(2),
      'p5',
      q(r, 0.05).toFixed(2),
      'med',
      q(r, 0.5).toFixed(3),
      'p95',
      q(r, 0.95).toFixed(2),
      'inf',
      r.filter((x) => !Number.isFinite(x)).length,
    );
  }
  const g: any = (name: string, f: (x: any) => boolean) => {
    const k = rs.filter(f);
    const r = k.map((x) => x.declaredS.program / x.trueS);
    console.log(
      '   ',
      name.padEnd(10),
      String(r.length).padEnd(4),
      'early',
      r.filter((x) => x < 1).length,
      'min',
      Math.min(...r).toFixed(2),
      'med',
      q(r, 0.5).toFixed(3),
      'lnXmid',
      ms(k.map((x) => Math.log(x.progress))),
      'claimed sd',
      ms(k.map((x) => Math.log(x.progress / x.low) / 2)),
      'errK',
      ms(k.map((x) => x.meanErrorK)),
      'z',
      ms(k.map((x) => (2 * Math.log(x.progress)) / Math.log(x.progress / x.low))),
    );
  };

  g('dry known', (x) => x.scenario.headBar === 0);
  g('maybe wet', (x) => x.scenario.headBar !== 0);
  g('seeps', (x) => x.scenario.options.seep !== null);
  if (!process.env.S)
    for (const k of [1, 2, 3, 4])
      g('dry pts ' + k, (x) => x.scenario.headBar === 0 && x.scenario.resin.points.length === k);
  g('dry u<.8', (x) => x.scenario.headBar === 0 && x.scenario.uC < 0.8);
  g('dry u>2.5', (x) => x.scenario.headBar === 0 && x.scenario.uC > 2.5);
}
console.log((Date.now() - t0) / 1000, 's');

const h = (n: string, k: any[]) => {
  const r = k.map((x) => x.declaredS.program / x.trueS);
  console.log(n, r.length, 'early', r.filter((x) => x < 1).length, 'med', q(r, 0.5).toFixed(3));
};
const p3 = all.filter((x) => x.scenario.probe !== 'ground');
h('ALL3', p3);
h(
  'ALL3 dry',
  p3.filter((x) => x.scenario.headBar === 0),
);
h('ALL4', all);
for (const x of all)
  if (x.declaredS.program < x.trueS)
    console.log(
      'EARLY',
      x.scenario.probe,
      x.scenario.seed,
      (x.declaredS.program / x.trueS).toFixed(3),
      'head',
      x.scenario.headBar,
      'seep',
      x.scenario.options.seep,
      'pts',
      x.scenario.resin.points.map((p: any) => p.c + ':' + p.minutes).join(' '),
      'e',
      x.scenario.options.kinetics.e1.toFixed(0),
      x.scenario.options.kinetics.e2.toFixed(0),
      'off',
      x.scenario.offsetK.toFixed(2),
      'u',
      x.scenario.uC.toFixed(2),
      'errK',
      x.meanErrorK.toFixed(2),
      'g',
      x.scenario.options.groundC.toFixed(1),
      x.scenario.ground.c,
    );
