import type { Luma } from '../../../core/vision/luma.ts'
import { chanceOf } from '../../bench/simulate/random.ts'

export type Camera = {
  widthPx: number
  heightPx: number
  frames: number
  fps: number
  readoutSeconds: number
  exposureSeconds: number
  /** Grey levels. */
  noise: number
  seed: number
}

const instants = 2

/**
 * What a rolling shutter makes of a scene: row y of frame i gathers light from i/fps + readout · y/H on, for the
 * exposure. `shade` is the scene's brightness (0 to 255) at a place and a time; shares no code with the product.
 */
export function filmed(
  camera: Camera,
  shade: (x: number, y: number, t: number) => number,
): (Luma & { data: Uint8Array })[] {
  const { widthPx, heightPx, frames, fps, readoutSeconds, exposureSeconds, noise, seed } = camera
  const chance = chanceOf(seed)
  return Array.from({ length: frames }, (_, i) => {
    const data = new Uint8Array(widthPx * heightPx)
    for (let row = 0; row < heightPx; row++)
      for (let column = 0; column < widthPx; column++) {
        let sum = 0
        for (let k = 0; k < instants; k++) {
          const t =
            i / fps + (readoutSeconds * (row + 0.5)) / heightPx + (exposureSeconds * (k + 0.5)) / instants
          // Four places in a pixel, so that edges are soft.
          for (const [u, v] of [
            [0.25, 0.25],
            [0.75, 0.25],
            [0.25, 0.75],
            [0.75, 0.75],
          ] as const)
            sum += shade(column + u, row + v, t)
        }
        data[row * widthPx + column] = Math.round(
          Math.min(Math.max(sum / instants / 4 + chance.normal(noise), 0), 255),
        )
      }
    return { xPx: 0, yPx: 0, widthPx, heightPx, data }
  })
}

/** Mean brightness of each row. */
export const rowsOf = ({ widthPx, heightPx, data }: Luma): number[] =>
  Array.from({ length: heightPx }, (_, y) => {
    let sum = 0
    for (let x = 0; x < widthPx; x++) sum += data[y * widthPx + x]!
    return sum / widthPx
  })
