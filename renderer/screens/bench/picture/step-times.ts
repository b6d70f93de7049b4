/**
 * How long a step takes, for benches to read from the page's performance entries:
 * `whorl-step` from the key or click until the new frame is drawn and the page around it committed,
 * `whorl-step-shown` until the display's refresh that shows it is done.
 * Only steps to a picture that was at hand are counted; waiting for the decoder is another thing.
 */
const drawn = 'whorl-step'
const shown = 'whorl-step-shown'
/** A session of hours must not fill the page's memory with entries. */
const most = 2000

let startedAt: number | null = null
let counted = 0

export function beginStep(): void {
  startedAt = window.event?.timeStamp ?? performance.now()
}

/** The picture of the frame that was stepped to is on its canvas. */
export function stepDrawn(frame: number): void {
  const start = startedAt
  if (start === null) return
  startedAt = null
  if (counted++ % most === 0) {
    performance.clearMeasures(drawn)
    performance.clearMeasures(shown)
  }
  // The page's own commit is already queued and comes first.
  queueMicrotask(() => performance.measure(drawn, { start, detail: { frame } }))
  requestAnimationFrame(() => {
    const painted = new MessageChannel()
    painted.port1.onmessage = () => performance.measure(shown, { start, detail: { frame } })
    painted.port2.postMessage(null)
  })
}

/** The picture has to be waited for: this step is not counted. */
export function stepWaits(): void {
  startedAt = null
}
