/** Round values across a range, at most `most` of them, at steps of 1, 2 or 5 times a power of ten. */
export function roundTicks(low: number, high: number, most: number): number[] {
  const rough = (high - low) / Math.max(1, most)
  if (!(rough > 0)) return [low]
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = power * ([1, 2, 5, 10].find(factor => factor * power >= rough * (1 - 1e-9)) ?? 10)
  return multiples(step, low, high)
}

/** Angles that the eye knows, across a range in degrees: parts of a turn, then whole turns. */
export function angleTicks(lowDeg: number, highDeg: number, most: number): number[] {
  const rough = (highDeg - lowDeg) / Math.max(1, most)
  const known = [5, 10, 15, 30, 45, 90, 180, 360]
  const step = known.find(deg => deg >= rough) ?? 360 * stepOfTurns(rough / 360)
  return multiples(step, lowDeg, highDeg)
}

function stepOfTurns(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough))
  return power * ([1, 2, 5, 10].find(factor => factor * power >= rough) ?? 10)
}

function multiples(step: number, low: number, high: number): number[] {
  const ticks: number[] = []
  // Adding 0 makes a minus zero a plain one.
  for (let k = Math.ceil(low / step - 1e-9) + 0; k * step <= high + step * 1e-9; k++) ticks.push(k * step)
  return ticks
}
