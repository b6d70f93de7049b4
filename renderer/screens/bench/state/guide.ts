import type { FrameWindow, HitMarks, PlacedOutline, Verdict } from '../../../../core/contract/bench.ts'

/**
 * The frame that should get the next outline: the first of the window, the last, then one about the
 * middle (a ball's path bends, and its size changes). Null when these have one.
 */
export function nextOutlineFrame(outlines: readonly PlacedOutline[], window: FrameWindow): number | null {
  const { fromFrame, toFrame } = window
  const has = (from: number, to: number) => outlines.some(o => o.frame >= from && o.frame <= to)
  if (!has(fromFrame, fromFrame)) return fromFrame
  if (!has(toFrame, toFrame)) return toFrame
  const length = toFrame - fromFrame
  if (length < 6 || has(fromFrame + Math.ceil(length / 4), toFrame - Math.ceil(length / 4))) return null
  return fromFrame + Math.round(length / 2)
}

/** The next frame of the window after `frame` (then from its start) in which the mark was not looked for. */
export function nextUnmarkedFrame(marks: HitMarks, mark: string, frame: number): number | null {
  const { fromFrame, toFrame } = marks.window
  const done = new Set(marks.sightings.filter(s => s.mark === mark).map(s => s.frame))
  const length = toFrame - fromFrame + 1
  const start = frame >= fromFrame && frame <= toFrame ? frame - fromFrame : length - 1
  for (let step = 1; step <= length; step++) {
    const candidate = fromFrame + ((start + step) % length)
    if (!done.has(candidate)) return candidate
  }
  return null
}

/** What the stage is asking for just now. */
export type Asking = {
  mode: 'outline' | 'mark'
  /** Rim points placed so far, or null while an outline is shown to be adjusted. */
  rimPoints: number | null
  /** The whole picture is shown: the ball has to be found first. */
  whole: boolean
  /** An outline is shown that was interpolated, not placed. */
  proposed: boolean
  direction: boolean
  markName: string
  /** The mark was looked for in every frame of the hit. */
  done: boolean
  seen: number
  /** This very frame has the mark already. */
  here: boolean
  verdict: Verdict['state']
  /** The mark is proposed in every frame. */
  proposing: boolean
  /**
   * The program read it from the surface, and nobody has marked anything: it gave one rate, by which
   * all balls are shown turned back, several, or none.
   */
  byItself: 'one' | 'several' | 'none' | null
}

/** One line that says what to do next, or what is done. */
export function prompt(asking: Asking): string {
  if (asking.mode === 'outline') {
    if (asking.rimPoints === null) {
      return asking.proposed
        ? 'Does the circle sit on the rim? Drag its middle or its rim'
        : 'The circle is placed. Drag its middle or its rim to change it'
    }
    if (asking.whole) return 'Click the ball to come closer'
    if (asking.rimPoints === 0) return 'Mark three points on the rim'
    return asking.rimPoints === 1 ? 'Two more points on the rim' : 'One more point on the rim'
  }
  if (asking.proposing) return `Click where “${asking.markName}” really is, and the rest follow`
  if (asking.here && !asking.done) return `“${asking.markName}” is marked here; click to mark it again`
  if (asking.verdict !== 'open')
    return asking.verdict === 'accepted' ? 'This hit is accepted' : 'This hit is held back'
  if (asking.byItself === 'one') return 'Read by itself. If all balls below look the same, accept it'
  if (asking.byItself === 'several') return 'Read by itself, and several rates fit. Choose one on the right'
  if (asking.done) return 'Every frame of the hit was looked at. Accept the reading, or hold it back'
  if (asking.direction) return `Lay the line along “${asking.markName}”`
  if (asking.seen === 0) return `Click “${asking.markName}”; the next frame comes by itself`
  return asking.seen === 1
    ? `Click “${asking.markName}” again: two make a reading`
    : `Click “${asking.markName}”`
}
