/**
 * A coordinate of something in flight at time t, through the given points: one point stays, two make a
 * straight line, three or more a smooth path that follows a parabola exactly.
 *
 * Each point gets the slope of the parabola through itself and its two neighbours, and a cubic with these
 * slopes joins one point to the next (cubic Bessel interpolation: C. de Boor, A Practical Guide to
 * Splines, chapter IV). It is local: moving one point leaves the path alone two points further on.
 * Beyond the ends the end's parabola goes on for as long as the end's own gap, then straight on.
 *
 * @param times rising, one a value
 */
export function pathAt(times: readonly number[], values: readonly number[], t: number): number {
  const last = times.length - 1
  if (last === 0) return values[0]!
  if (last === 1) return values[0]! + chord(times, values, 0) * (t - times[0]!)
  if (t < times[0]!) return beyond(times, values, 0, Math.max(t, 2 * times[0]! - times[1]!), t)
  if (t > times[last]!)
    return beyond(times, values, last, Math.min(t, 2 * times[last]! - times[last - 1]!), t)
  const from = Math.max(0, times.findIndex(time => time >= t) - 1)
  const gap = times[from + 1]! - times[from]!
  const s = (t - times[from]!) / gap
  return (
    values[from]! * (1 + 2 * s) * (1 - s) ** 2 +
    values[from + 1]! * s * s * (3 - 2 * s) +
    gap * s * (1 - s) * (slopeAt(times, values, from) * (1 - s) - slopeAt(times, values, from + 1) * s)
  )
}

/** Slope of the straight line from point i to the next. */
const chord = (times: readonly number[], values: readonly number[], i: number) =>
  (values[i + 1]! - values[i]!) / (times[i + 1]! - times[i]!)

/** Half the second derivative of the parabola through three points, i in the middle. */
const bend = (times: readonly number[], values: readonly number[], i: number) =>
  (chord(times, values, i) - chord(times, values, i - 1)) / (times[i + 1]! - times[i - 1]!)

const middleFor = (times: readonly number[], i: number) => Math.min(Math.max(i, 1), times.length - 2)

function slopeAt(times: readonly number[], values: readonly number[], i: number): number {
  const middle = middleFor(times, i)
  const from = middle - 1
  return (
    chord(times, values, from) + bend(times, values, middle) * (2 * times[i]! - times[from]! - times[middle]!)
  )
}

function beyond(
  times: readonly number[],
  values: readonly number[],
  end: number,
  bentTo: number,
  t: number,
): number {
  const slope = slopeAt(times, values, end)
  const halfSecond = bend(times, values, middleFor(times, end))
  const d = bentTo - times[end]!
  return values[end]! + slope * d + halfSecond * d * d + (slope + 2 * halfSecond * d) * (t - bentTo)
}
