const turn = 2 * Math.PI

/** Revolutions per minute to radians per second. */
export const radPerSecondOfRpm = (rpm: number): number => (rpm * turn) / 60

/** Radians per second to revolutions per minute. */
export const rpmOfRadPerSecond = (radPerSecond: number): number => (radPerSecond * 60) / turn

/** Degrees that a ball turns from one frame to the next. */
export const degPerFrameOfRpm = (rpm: number, fps: number): number => (360 * rpm) / (60 * fps)

/** The rate of a ball that turns so many degrees a frame. */
export const rpmOfDegPerFrame = (deg: number, fps: number): number => (deg * 60 * fps) / 360

/** Frames that one turn takes; infinite for a ball that stands still. */
export const framesPerRevolutionOfRpm = (rpm: number, fps: number): number => (60 * fps) / rpm

/**
 * Turns a minute that a person wrote as `45`, `33.33 rpm` or `33 1/3`; null for anything else and for 0 or less.
 *
 * @example rpmOfText('33 1/3') // 33.333…
 */
export function rpmOfText(text: string): number | null {
  const [, whole, over, under] = /^\s*(\d*\.?\d+)(?:\s+(\d+)\s*\/\s*(\d+))?\s*(?:rpm)?\s*$/i.exec(text) ?? []
  const rpm = Number(whole) + (over === undefined ? 0 : Number(over) / Number(under))
  return Number.isFinite(rpm) && rpm > 0 ? rpm : null
}
