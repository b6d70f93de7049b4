import type { CallContext } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Look, Size } from '../../core/contract/publish.ts'
import { outlineAt } from '../../core/marking/outline-at.ts'
import type { StripTile } from '../../core/picture/bearing-picture.ts'
import { hitsStrip, tilesInRow } from '../../core/picture/hits-strip.ts'
import type { Scene } from '../../core/picture/scene.ts'
import type { Parts } from '../service/parts.ts'
import { type HitEvidence, hitEvidence } from './hit-evidence.ts'
import { photographOf, tileSidePx } from './hit-pictures.ts'
import { ballTile, pngBase64 } from './photograph.ts'

/** A strip of every hit of a session that has a reading, in the order in which they were filmed. */
export async function sessionScene(
  parts: Parts,
  sessionId: string,
  look: Look,
  size: Size,
  { signal, progress }: CallContext,
): Promise<Scene> {
  const { workspace, media } = parts
  const { day } = workspace.session(sessionId)
  const hits = workspace
    .hits({ sessionId })
    .filter(row => row.reading !== null)
    .map(row => hitEvidence(parts, row.hitId))
  const count = tilesInRow(hits, day, look, size)
  const shown = []
  for (const [i, hit] of hits.entries()) {
    if (signal.aborted) throw new WhorlError('cancelled', { what: 'Drawing the session' })
    progress({ what: 'Drawing', done: i, total: hits.length })
    // a clip that is not at hand leaves its row without pictures
    const tiles = await tilesOf(hit, count).catch(() => [])
    shown.push({ name: hit.name, reading: hit.reading, tiles })
  }
  return hitsStrip(shown, day, look, size)

  async function tilesOf(hit: HitEvidence, most: number): Promise<StripTile[]> {
    const { fromFrame, toFrame } = hit.window
    const tiles: StripTile[] = []
    for (let frame = fromFrame; frame <= toFrame && tiles.length < most; frame++) {
      const outline = outlineAt(hit.marks, frame, hit.timesSeconds)
      if (outline === null) continue
      tiles.push({
        frame,
        pngBase64: pngBase64(ballTile(await photographOf(media, hit, frame), outline, tileSidePx)),
      })
    }
    return tiles
  }
}
