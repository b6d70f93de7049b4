/** A run of frames that follow each other at one step. */
export type Stretch = { fromFrame: number; toFrame: number; fps: number }

/** Steps belong together when they differ by less than this factor; a ramp changes speed by more. */
const sameSpeed = 1.5
/** A stretch shorter than this is a gap or a stumble, not a change of speed. */
const fewestFrames = 8

/**
 * The stretches of a clip whose speed changes on the way (normal, slow, normal), by their frame times; one
 * stretch or none where it does not. Frames between two stretches belong to neither.
 *
 * @param timesSeconds container times, one a frame, rising
 */
export function stretchesOf(timesSeconds: readonly number[], tickSeconds: number): Stretch[] {
  const runs: { from: number; steps: number[] }[] = []
  for (let i = 1; i < timesSeconds.length; i++) {
    const step = timesSeconds[i]! - timesSeconds[i - 1]!
    const run = runs.at(-1)
    if (run && alike(step, mean(run.steps), tickSeconds)) run.steps.push(step)
    else runs.push({ from: i - 1, steps: [step] })
  }
  return joined(
    runs
      .filter(({ steps }) => steps.length >= fewestFrames)
      .map(({ from, steps }) => ({ fromFrame: from, toFrame: from + steps.length, fps: 1 / mean(steps) })),
  )
}

const mean = (steps: readonly number[]) => steps.reduce((sum, step) => sum + step, 0) / steps.length

const alike = (a: number, b: number, tick: number) =>
  Math.max(a, b) < sameSpeed * Math.min(a, b) || Math.abs(a - b) <= tick * 1.01

/** Neighbouring stretches of one speed are one: a dropped frame lay between. */
function joined(stretches: Stretch[]): Stretch[] {
  const out: Stretch[] = []
  for (const stretch of stretches) {
    const last = out.at(-1)
    if (last && alike(last.fps, stretch.fps, 0)) last.toFrame = stretch.toFrame
    else out.push({ ...stretch })
  }
  return out
}
