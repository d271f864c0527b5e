/** Changes in JSON, member by member, whatever it is about. */
import { canonicalText, type Json } from '../../src/record/canonical.ts';
import type { Draw } from './forgeries-draw.ts';

const deep = (n: number): Json => {
  let v: Json = 1;
  for (let i = 0; i < n; i++) v = i % 2 === 0 ? [v] : { a: v };
  return v;
};

const ODD_VALUES: readonly (() => Json)[] = [
  () => null,
  () => true,
  () => 0,
  () => -1,
  () => 0.5,
  () => 1e300,
  () => Number.MAX_SAFE_INTEGER,
  () => '',
  () => '__proto__',
  () => 'x'.repeat(5000),
  () => '<img src=x onerror=alert(1)>',
  () => '../../etc/passwd',
  () => 'ab'.repeat(32),
  () => [],
  () => ({}),
  () => new Array<Json>(2000).fill(0),
  () => deep(20),
  () => deep(200),
];

interface Place {
  readonly holder: Record<string, Json> | Json[];
  readonly key: string;
}

function placesIn(value: Json, out: Place[] = []): Place[] {
  if (typeof value !== 'object' || value === null) return out;
  for (const [key, v] of Object.entries(value)) {
    out.push({ holder: value as Place['holder'], key });
    placesIn(v, out);
  }
  return out;
}

/** The value with one to three members changed, taken out, put in or exchanged. */
export function changeJson(d: Draw, value: Json): Json {
  const root = { root: JSON.parse(JSON.stringify(value)) as Json };
  for (let i = d.below(3); i >= 0; i--) {
    const places = placesIn(root);
    const { holder, key } = d.pick(places);
    const at = holder as Record<string, Json>;
    const old = at[key] ?? null;
    switch (d.below(5)) {
      case 0:
        if (Array.isArray(holder)) holder.splice(Number(key), 1);
        else if (key !== 'root') delete at[key];
        break;
      case 1:
        if (typeof old === 'object' && old !== null && !Array.isArray(old))
          (old as Record<string, Json>)[d.pick(['constructor', 'toString', 'x', 'schema'])] =
            d.pick(ODD_VALUES)();
        else at[key] = d.pick(ODD_VALUES)();
        break;
      case 2: {
        const other = d.pick(places);
        at[key] = JSON.parse(
          JSON.stringify((other.holder as Record<string, Json>)[other.key] ?? null),
        ) as Json;
        break;
      }
      case 3:
        at[key] =
          typeof old === 'number'
            ? old + d.pick([1, -1, 1e9, -1e9])
            : typeof old === 'string'
              ? `${old}x`
              : null;
        break;
      default:
        at[key] = d.pick(ODD_VALUES)();
    }
  }
  return root.root;
}

/** In the one form where it has one; else as JSON may stand too. */
export function jsonBytes(d: Draw, value: Json): Uint8Array {
  let text: string;
  try {
    text = canonicalText(value);
  } catch {
    text = JSON.stringify(value);
  }
  if (d.below(20) === 0) text = text.replace(/"engine":\d+/, '"engine":1e999');
  if (d.below(20) === 0) text = text.replace(/^\{/, '{"__proto__":{"practice":false},');
  if (d.below(20) === 0) text = `${'['.repeat(20_000)}${text}`;
  return new TextEncoder().encode(text);
}
