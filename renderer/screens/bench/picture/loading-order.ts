/**
 * Which frames to have ready, most wanted first: the one looked at, then ahead in the direction of
 * stepping with every third one behind, then the rest of the range outward. At most `room` of them.
 */
export function loadingOrder(
  current: number,
  direction: 1 | -1,
  range: { fromFrame: number; toFrame: number },
  room: number,
): number[] {
  const order = [current]
  const inRange = (frame: number) => frame >= range.fromFrame && frame <= range.toFrame
  const length = range.toFrame - range.fromFrame + 1
  let behind = 0
  for (let ahead = 1; ahead <= length && order.length < room; ahead++) {
    if (inRange(current + direction * ahead)) order.push(current + direction * ahead)
    if (ahead % 3 === 0 && inRange(current - direction * (behind + 1))) {
      behind++
      order.push(current - direction * behind)
    }
  }
  for (behind++; behind <= length && order.length < room; behind++) {
    if (inRange(current - direction * behind)) order.push(current - direction * behind)
  }
  return order.slice(0, room)
}
