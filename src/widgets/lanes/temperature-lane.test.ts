import { describe, expect, it } from 'vitest';
import { scaleOf } from '../../units/display.ts';
import type { Measure, TextShape } from './shape.ts';
import { temperatureNumerals, temperatureScale, temperaturesNow, temperatureY } from './temperature-lane.ts';

const C = { factor: 1, shift: 0 };
const F = scaleOf('temperature', { pressure: 'bar', temperature: 'F', length: 'mm' });
const measure: Measure = (text, size) => text.length * size * 0.58;

describe('the scale of the temperatures', () => {
  it('ends on whole steps round what is seen', () => {
    expect(temperatureScale(9.8, 12.4, C)).toEqual({ lowC: 5, highC: 15, step: 5 });
    expect(temperatureScale(10.2, 18, C)).toEqual({ lowC: 5, highC: 20, step: 5 });
    expect(temperatureScale(-4, 46, C)).toMatchObject({ step: 20 });
  });

  it('stays while lines move inside it, and follows one that leaves', () => {
    const before = temperatureScale(10.2, 18, C);
    expect(temperatureScale(10.2, 19.6, C, before)).toBe(before);
    expect(temperatureScale(10.2, 21, C, before)).toEqual({ lowC: 5, highC: 25, step: 5 });
    // One that was far too wide comes back.
    expect(temperatureScale(10.2, 12, C, { lowC: 0, highC: 60, step: 20 })).toEqual({
      lowC: 5,
      highC: 15,
      step: 5,
    });
  });

  it('counts in the unit that is read', () => {
    const scale = temperatureScale(10, 12, F);
    const shown = [scale.lowC, scale.highC].map((c) => Math.round((c * F.factor + F.shift) * 1e6) / 1e6);
    expect(shown.every((v) => v % scale.step === 0)).toBe(true);
  });

  it('numbers stand in steps, apart from each other and from the unit', () => {
    const box = { x: 0, y: 100, w: 300, h: 60 };
    const unit = { ...C, unit: '°C', text: String, axis: (v: number) => String(v) };
    const texts = temperatureNumerals(
      box,
      310,
      'start',
      { lowC: 5, highC: 25, step: 5 },
      unit,
      true,
    ) as TextShape[];
    expect(texts[0]!.text).toBe('°C');
    const ys = texts.map((t) => t.y).sort((a, b) => a - b);
    for (let i = 1; i < ys.length; i++) expect(ys[i]! - ys[i - 1]!).toBeGreaterThanOrEqual(11);
    expect(texts.length).toBeGreaterThan(2);
  });

  it('goes from foot to top', () => {
    const y = temperatureY({ y: 0, h: 100 }, { lowC: 5, highC: 25, step: 5 });
    expect([5, 15, 25].map(y)).toEqual([100, 50, 0]);
  });
});

it('names and values now stand side by side, with words a third longer too', () => {
  for (const names of [
    ['Sleeve', 'Air', 'Pipe wall'],
    ['Sleevesle', 'Airai', 'Pipe wallpip', 'Ground'],
  ])
    for (const small of [true, false]) {
      const box = { x: 100, y: 0, w: small ? 158 : 242, h: small ? 62 : 85 };
      const list = names.map((name) => ({
        name,
        value: '−12.3',
        dash: [],
        tone: 'ink' as const,
      }));
      const texts = temperaturesNow(box, list, small, measure).filter((s): s is TextShape => s.k === 'text');
      for (let i = 0; i < texts.length; i += 2) {
        const [name, value] = [texts[i]!, texts[i + 1]!];
        const end = name.x + measure(name.text, name.size, false);
        expect(end).toBeLessThanOrEqual(value.x - measure(value.text, value.size, true) + 0.01);
        expect(value.x).toBeLessThanOrEqual(box.x + box.w);
      }
    }
});
