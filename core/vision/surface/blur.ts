/**
 * A square sheet blurred by a Gaussian of standard deviation `sigma`, in nodes. Nodes without a value (NaN)
 * count for nothing: each result is the weighted mean of the values around it; NaN where there are none.
 */
export function blurred(sheet: Float32Array, size: number, sigma: number): Float32Array {
  const radius = Math.ceil(2.5 * sigma)
  const kernel = Float32Array.from({ length: 2 * radius + 1 }, (_, k) =>
    Math.exp(-0.5 * ((k - radius) / sigma) ** 2),
  )
  const values = sheet.map(value => (Number.isNaN(value) ? 0 : value))
  const weights = sheet.map(value => (Number.isNaN(value) ? 0 : 1))
  const sums = swept(swept(values, size, kernel, 1), size, kernel, size)
  const totals = swept(swept(weights, size, kernel, 1), size, kernel, size)
  return sums.map((sum, at) => sum / totals[at]!)
}

/** One-dimensional convolution along rows (`step` 1) or columns (`step` = size). */
function swept(from: Float32Array, size: number, kernel: Float32Array, step: number): Float32Array {
  const radius = kernel.length >> 1
  const to = new Float32Array(from.length)
  const across = step === 1 ? size : 1
  for (let line = 0; line < size; line++) {
    for (let at = 0; at < size; at++) {
      let sum = 0
      const first = Math.max(at - radius, 0)
      const last = Math.min(at + radius, size - 1)
      for (let k = first; k <= last; k++) sum += from[line * across + k * step]! * kernel[k - at + radius]!
      to[line * across + at * step] = sum
    }
  }
  return to
}
