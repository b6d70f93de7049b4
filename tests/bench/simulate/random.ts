/** Seeded chance, so that a run can be repeated. */
export type Chance = {
  /** Even between the two. */
  between: (low: number, high: number) => number
  normal: (standardDeviation: number) => number
  pick: <T>(from: readonly T[]) => T
  happens: (probability: number) => boolean
}

/** Source: D. Blackman and S. Vigna, xoshiro128**, started by a splitmix32 of the seed. */
export function chanceOf(seed: number): Chance {
  let state = seed | 0
  const next32 = () => {
    state = (state + 0x9e3779b9) | 0
    let z = state ^ (state >>> 16)
    z = Math.imul(z, 0x21f0aaad)
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97)
    return (z ^ (z >>> 15)) >>> 0
  }
  const s = [next32(), next32(), next32(), next32()]
  const rotate = (x: number, by: number) => (x << by) | (x >>> (32 - by))
  const share = () => {
    const drawn = Math.imul(rotate(Math.imul(s[1]!, 5), 7), 9) >>> 0
    const shifted = s[1]! << 9
    s[2]! ^= s[0]!
    s[3]! ^= s[1]!
    s[1]! ^= s[2]!
    s[0]! ^= s[3]!
    s[2]! ^= shifted
    s[3] = rotate(s[3]!, 11)
    return (drawn + 0.5) / 4294967296
  }
  return {
    between: (low, high) => low + (high - low) * share(),
    normal: sd => sd * Math.sqrt(-2 * Math.log(share())) * Math.cos(2 * Math.PI * share()),
    pick: from => from[Math.floor(share() * from.length)]!,
    happens: probability => share() < probability,
  }
}
