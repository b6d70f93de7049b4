import { WhorlError } from '../../core/contract/problem.ts'
import type { ListedHit } from '../../core/contract/workspace.ts'

/**
 * The hit that was named by its clip, as `topspin.mp4`, with the frame that it begins at where the clip has
 * several, as `topspin.mp4@41`. Throws `hit-unknown`, which lists what would have been understood.
 */
export function pickHit(word: string, hits: readonly ListedHit[]): ListedHit {
  const [, clip = word, frame] = /^(.*)@(\d+)$/.exec(word) ?? []
  const found = hits.filter(
    hit => hit.clipName === clip && (frame === undefined || hit.window.fromFrame === Number(frame)),
  )
  const [hit] = found
  if (hit && found.length === 1) return hit
  const listed = (found.length > 1 ? found : hits).map(one => `${one.clipName}@${one.window.fromFrame}`)
  const more = listed.length > 12 ? ' …' : ''
  throw new WhorlError('hit-unknown', { name: word, hits: listed.slice(0, 12).join(', ') + more })
}
