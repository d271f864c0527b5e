import type { EngineNews } from '../../../src/engine/messages.ts';

export type Moment = Extract<EngineNews, { readonly m: 'moment' }>;

type Fresh = Moment['fresh'];

const joined = <T extends Float32Array | Float64Array>(a: T, b: T): T => {
  const out = new (a.constructor as new (n: number) => T)(a.length + b.length);
  out.set(a);
  out.set(b, a.length);
  return out;
};

const sameChannels = (a: Fresh, b: Fresh): boolean =>
  (a.second === null) === (b.second === null) &&
  a.temps.length === b.temps.length &&
  a.temps.every((t, i) => t.channel === b.temps[i]!.channel);

/** Two moments as one that came later: its picture is the later one's, its readings are those of both. null: they do not join. */
export function joinMoments(a: Moment, b: Moment): Moment | null {
  if (a.run?.runId !== b.run?.runId || a.view.firstUs !== b.view.firstUs) return null;
  if (a.fresh.s.length === 0) return b;
  if (b.fresh.s.length === 0) return { ...b, fresh: a.fresh };
  if (!sameChannels(a.fresh, b.fresh)) return null;
  return {
    ...b,
    fresh: {
      s: joined(a.fresh.s, b.fresh.s),
      bar: joined(a.fresh.bar, b.fresh.bar),
      second: a.fresh.second === null ? null : joined(a.fresh.second, b.fresh.second!),
      temps: a.fresh.temps.map((t, i) => ({ channel: t.channel, c: joined(t.c, b.fresh.temps[i]!.c) })),
    },
  };
}

/** The same moment once more, with nothing new in it. */
export const again = (moment: Moment): Moment => ({
  ...moment,
  fresh: {
    s: new Float64Array(0),
    bar: new Float32Array(0),
    second: moment.fresh.second === null ? null : new Float32Array(0),
    temps: moment.fresh.temps.map((t) => ({ channel: t.channel, c: new Float32Array(0) })),
  },
});
