import type { FramePicture } from '../../../core/contract/calls.ts'
import { seeded } from '../stand-in-data.ts'

/** A drawn ball that crosses the picture, as I420: something to look at, not something to measure. */
export function flyingBall(clipId: string, frame: number, maxWidthPx: number): FramePicture {
  const widthPx = Math.min(960, maxWidthPx) & ~1
  const heightPx = Math.round((widthPx * 9) / 16) & ~1
  const random = seeded(Number(clipId.replace(/\D/g, '')) + 3)
  const wall = 50 + random() * 70
  const along = (frame % 768) / 768
  const centreX = widthPx * (0.1 + 0.8 * along)
  const centreY = heightPx * (0.62 - 0.9 * along * (1 - along) + 0.12 * random())
  const radius = widthPx * 0.052
  const bearing = frame * 1.017
  const data = new Uint8Array((widthPx * heightPx * 3) / 2)
  const u = widthPx * heightPx
  const v = u + u / 4
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const dx = (x - centreX) / radius
      const dy = (y - centreY) / radius
      const r = Math.hypot(dx, dy)
      const floor = y > heightPx * 0.82 ? -18 : 0
      let luma = wall + floor + (x / widthPx) * 24 + random() * 5
      let blue = 128
      let red = 126
      if (r < 1) {
        const along = dx * Math.cos(bearing) + dy * Math.sin(bearing)
        const across = -dx * Math.sin(bearing) + dy * Math.cos(bearing)
        const logo = along > 0.3 && along < 0.75 && Math.abs(across) < 0.12
        luma = logo ? 42 : 90 + 110 * Math.sqrt(1 - r * r) * (0.75 - 0.25 * dy)
        blue = logo ? 128 : 78
        red = logo ? 128 : 132
      }
      data[y * widthPx + x] = Math.min(235, luma)
      const half = (y >> 1) * (widthPx / 2) + (x >> 1)
      data[u + half] = blue
      data[v + half] = red
    }
  }
  return { widthPx, heightPx, data }
}
