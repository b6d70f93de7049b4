/** cos and sin of (rate × time) for each rate of a grid and each sighting: `[k · sightings + i]`, rate after rate. */
export type Turning = { cos: Float64Array; sin: Float64Array }

/** The table for the rates 0, 1, … `rateCount` − 1 steps; `stepRad` holds what each sighting turns by for one step. */
export function turningTable(stepRad: Float64Array, rateCount: number): Turning {
  const n = stepRad.length
  const cos = new Float64Array(rateCount * n)
  const sin = new Float64Array(rateCount * n)
  for (let i = 0; i < n; i++) {
    const turnCos = Math.cos(stepRad[i]!)
    const turnSin = Math.sin(stepRad[i]!)
    let c = 1
    let s = 0
    for (let k = 0; k < rateCount; k++) {
      cos[k * n + i] = c
      sin[k * n + i] = s
      const next = c * turnCos - s * turnSin
      s = c * turnSin + s * turnCos
      c = next
    }
  }
  return { cos, sin }
}
