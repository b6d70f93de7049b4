/** Grey levels: a pixel changes when its neighbours in time differ by more. */
const changes = 24
const fewestPixels = 24
const mostOfPicture = 0.4
/** Where a picture is a mix, every pixel stands at the same share of the way; movement leaves them apart. */
const mostSpread = 0.15
const [leastShare, mostShare] = [0.12, 0.88]

/** What a picture is to the ones before and after it: still, moved on, or a mix of the two. */
export type Between = 'still' | 'moved' | 'mixed'

/**
 * Whether the middle of three small grey pictures is a mix of its neighbours. A mixed picture shows everything
 * that moved at the same share (before + share·(after − before)); a filmed one shows a moving edge's pixels
 * either before or behind it.
 */
export function betweenOf(before: Uint8Array, middle: Uint8Array, after: Uint8Array): Between {
  let [n, sum, squares] = [0, 0, 0]
  for (let i = 0; i < middle.length; i++) {
    const way = after[i]! - before[i]!
    if (Math.abs(way) <= changes) continue
    const share = (middle[i]! - before[i]!) / way
    n++
    sum += share
    squares += share * share
  }
  if (n < fewestPixels || n > mostOfPicture * middle.length) return 'still'
  const mean = sum / n
  const spread = Math.sqrt(Math.max(squares / n - mean * mean, 0))
  return spread < mostSpread && mean > leastShare && mean < mostShare ? 'mixed' : 'moved'
}

const fewestMixed = 6
/** Slow movement of soft edges looks mixed all the time; a conversion lets the real pictures through. */
const [leastOfMoving, mostOfMoving] = [0.15, 0.92]

/** The frames that a conversion mixed from their neighbours; none where that is not sure. */
export function mixedFrames(between: readonly Between[]): number[] {
  const moving = between.filter(one => one !== 'still').length
  const mixed = between.flatMap((one, i) => (one === 'mixed' ? [i] : []))
  const part = mixed.length / moving
  return mixed.length >= fewestMixed && part > leastOfMoving && part < mostOfMoving ? mixed : []
}
