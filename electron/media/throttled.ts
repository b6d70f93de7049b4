import type { Progress } from '../../core/contract/calls.ts'

const intervalMs = 100

/** Passes progress on at most ten times a second, and always the last step. */
export function throttled(progress: ((p: Progress) => void) | undefined): (p: Progress) => void {
  let last = Number.NEGATIVE_INFINITY
  return p => {
    const now = performance.now()
    if (!progress || (now - last < intervalMs && p.done !== p.total)) return
    last = now
    progress(p)
  }
}
