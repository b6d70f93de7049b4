import type { BenchStore } from './bench-store.ts'
import { nudgeOutline } from './rim.ts'
import { crosshairOf, followed, lineBearingOf } from './seen.ts'

/** One press of an arrow, in picture pixels and in degrees; with Shift ten times as far. */
const nearPx = 0.5
const nearDeg = 1
const far = 10
/** One press of + or − on what one comes close to, and on the circle. */
const closerBy = 1.15
const radiusPx = 0.25

/** Moves the crosshair, turns the line of a direction mark, or moves the circle while the rim is worked on. */
export function moveCrosshair(store: BenchStore, dx: number, dy: number, isFar: boolean): void {
  const state = store.getState()
  const { rim, mode, set, clip } = state
  const times = isFar ? far : 1
  // On the whole picture half a pixel is nothing: there the step is as wide as the picture is large.
  const isWhole = rim !== null && rim.near === null
  const px = times * (isWhole ? (clip.probe?.widthPx ?? 100) / 200 : nearPx)
  if (mode === 'outline' && !rim)
    nudgeOutline(store, from => ({ ...from, xPx: from.xPx + dx * px, yPx: from.yPx + dy * px }))
  else if (!rim && followed(state)?.kind === 'direction')
    set({ cursorBearingDeg: lineBearingOf(state) + (dx + dy) * nearDeg * times })
  else {
    const from = crosshairOf(state)
    set({ cursor: { xPx: from.xPx + dx * px, yPx: from.yPx + dy * px } })
  }
}

/** Comes closer or steps back while rim points are placed; else a larger or smaller circle. */
export function resize(store: BenchStore, by: 1 | -1): void {
  const { rim, mode, set } = store.getState()
  if (rim?.near) {
    const near = { ...rim.near, radiusPx: rim.near.radiusPx * closerBy ** -by }
    set({ rim: { ...rim, near } })
  } else if (mode === 'outline' && !rim) {
    nudgeOutline(store, from => ({ ...from, radiusPx: from.radiusPx + by * radiusPx }))
  }
}
