/**
 * How much later than its frame a rolling shutter saw a row: readout · (row / rows). 0 for a global shutter.
 *
 * Unheeded, a ball that falls `v` rows a second is sampled at intervals stretched by 1 + v·readout/rows,
 * and its rate comes out wrong by that factor.
 */
export function readoutDelaySeconds(
  yPx: number,
  picture: { heightPx: number },
  readoutSeconds: number,
): number {
  return (readoutSeconds * yPx) / picture.heightPx
}
