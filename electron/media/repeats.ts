/** Real pictures come at least this often in a conversion: 30 fps spread over 240. */
const reach = 8
/** A repeat changes by less than this part of what the frames around it change by. */
const share = 1 / 8
/** Grey levels: a change below the first is never taken for movement, one above the second always is. */
const leastMovement = 8
const sureMovement = 20

/**
 * The frames whose picture repeats the one before, from each frame's change (see picture-change).
 *
 * A repeated picture is coded again, so its change is small but seldom 0; and a still scene that the coder has
 * smoothed changes as little. So a frame is a repeat only between movement: within eight frames on both sides
 * something changes eight times as much, and by three times what the clip's quietest quarter of frames changes
 * by: that is the clip's own noise, or movement all the time, hence the upper limit.
 */
export function repeatsIn(changes: readonly number[]): number[] {
  const quiet = [...changes].sort((a, b) => a - b)[changes.length >> 2] ?? 0
  const movement = Math.min(sureMovement, Math.max(leastMovement, 3 * quiet))
  const most = (from: number, to: number) => Math.max(0, ...changes.slice(Math.max(1, from), to))
  return changes.flatMap((change, i) => {
    if (i === 0) return []
    const around = Math.min(most(i - reach, i), most(i + 1, i + 1 + reach))
    return around >= movement && change <= share * around ? [i] : []
  })
}
