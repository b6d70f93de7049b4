import type { Random } from '../../../core/numerics/seeded-random.ts'

const hostile: readonly unknown[] = [
  null,
  true,
  -1,
  0,
  0.5,
  1e-300,
  1e300,
  Number.MAX_SAFE_INTEGER,
  -Number.MAX_SAFE_INTEGER,
  4_294_967_296,
  '',
  '\u0000',
  '__proto__',
  'constructor',
  '../../escape',
  "'; DROP TABLE hit; --",
  '<script>alert(1)</script>',
  '=HYPERLINK("http://127.0.0.1:9/")',
  '\ud800',
  'x'.repeat(100_000),
  [],
  {},
  JSON.parse('{"__proto__":{"polluted":true}}'),
  Array.from({ length: 3000 }, () => 0),
]

type Place = { holder: Record<string, unknown>; key: string }

function placesIn(value: unknown): Place[] {
  if (typeof value !== 'object' || value === null) return []
  const holder = value as Record<string, unknown>
  return Object.keys(holder).flatMap(key => [{ holder, key }, ...placesIn(holder[key])])
}

/** A copy of a JSON value in which one to three places hold something else, are gone, or are there twice. */
export function spoiledJson(value: unknown, random: Random): unknown {
  const copy = { whole: structuredClone(value) } as Record<string, unknown>
  for (let n = 1 + Math.floor(random() * 3); n > 0; n--) {
    const places = placesIn(copy)
    const { holder, key } = places[Math.floor(random() * places.length)]!
    const how = random()
    if (how < 0.6) holder[key] = structuredClone(hostile[Math.floor(random() * hostile.length)])
    else if (how < 0.75 && typeof holder[key] === 'number')
      holder[key] = (holder[key] as number) * 10 ** (random() * 40 - 20)
    else if (how < 0.85) {
      if (Array.isArray(holder)) holder.splice(Number(key), 1)
      else if (holder !== copy) delete holder[key]
    } else if (Array.isArray(holder)) holder.push(structuredClone(holder[Number(key)]))
    else holder[`${key} `] = structuredClone(holder[key])
  }
  return copy.whole
}
