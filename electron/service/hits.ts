import type { Edit, FrameWindow } from '../../core/contract/bench.ts'
import type { Service } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { BenchHit } from '../../core/contract/workspace.ts'
import type { Parts } from './parts.ts'

type Calls =
  | 'hits.list'
  | 'hits.page'
  | 'hits.create'
  | 'hits.open'
  | 'hits.assign'
  | 'hits.note'
  | 'hits.remove'
  | 'hits.edit'
  | 'hits.undo'
  | 'hits.redo'

export const hitCalls = ({ workspace, media, bus, reader }: Parts): Pick<Service, Calls> => {
  const changed = <T>(id: string, answer: T): T => {
    bus.say({ kind: 'changed', what: 'hits', id })
    return answer
  }
  /** Undo and redo without a step to take leave the hit, and its reading, as they are. */
  const readAgain = (hitId: string, hit: BenchHit): BenchHit =>
    changed(hitId, hit.row.stale ? reader.read(hitId) : hit)

  async function framesOf(clipId: string): Promise<number> {
    const known = workspace.timestampsSeconds(clipId).length
    return known > 0 ? known : (await media.timestamps(workspace.clip(clipId).path)).length
  }
  async function checkFrames(clipId: string, frames: number[]): Promise<void> {
    // What names no frame can be said of a hit whose clip is away.
    if (frames.length === 0) return
    const count = await framesOf(clipId)
    const outside = frames.find(frame => frame >= count)
    if (outside !== undefined) throw new WhorlError('frame-outside-clip', { frame: outside, frames: count })
  }

  return {
    'hits.list': async filter => {
      reader.readStale(filter)
      return workspace.hits(filter)
    },
    'hits.page': async ({ after, least }) => {
      if (after === null) reader.readStale({})
      return workspace.hitPage(after, least)
    },
    'hits.create': async ({ clipId, window }) => {
      const { fromFrame, toFrame } = window
      if (toFrame < fromFrame) throw new WhorlError('window-empty', { fromFrame, toFrame })
      await checkFrames(clipId, [fromFrame, toFrame])
      const hit = workspace.createHit(clipId, window)
      return changed(hit.row.hitId, reader.read(hit.row.hitId))
    },
    'hits.open': async ({ hitId }) => {
      const hit = workspace.hit(hitId)
      return hit.row.stale ? reader.read(hitId) : hit
    },
    'hits.assign': async ({ hitId, setUpId }) => changed(hitId, workspace.assignHit(hitId, setUpId)),
    'hits.note': async ({ hitId, notes }) => changed(hitId, workspace.noteHit(hitId, notes)),
    'hits.remove': async ({ hitId }) => {
      workspace.removeHit(hitId)
      return changed(hitId, null)
    },
    'hits.edit': async ({ hitId, edit }) => {
      const before = workspace.hit(hitId)
      await checkFrames(before.row.clipId, framesIn(edit))
      if (edit.kind === 'decide' && edit.verdict.state === 'accepted')
        checkAcceptable(before.row.stale ? reader.read(hitId) : before)
      return readAgain(hitId, workspace.saveEdit(hitId, edit))
    },
    'hits.undo': async ({ hitId }) => readAgain(hitId, workspace.undo(hitId)),
    'hits.redo': async ({ hitId }) => readAgain(hitId, workspace.redo(hitId)),
  }
}

const ends = ({ fromFrame, toFrame }: FrameWindow): number[] => [fromFrame, toFrame]

function framesIn(edit: Edit): number[] {
  if (edit.kind === 'set-window') return ends(edit.window)
  if (edit.kind === 'place-outline') return [edit.outline.frame]
  return edit.kind === 'place-sighting' ? [edit.sighting.frame] : []
}

/** A figure that is none, or one of several, must not become a paddle's. */
function checkAcceptable({ row: { reading }, marks }: BenchHit): void {
  if (reading === null || reading.rpm === null)
    throw new WhorlError('edit-refused', {
      what: `This hit has no figure to accept${reading?.reasons[0] ? `: ${reading.reasons[0]}` : '.'}`,
      hint: 'Mark more frames, or hold the hit back.',
    })
  if (reading.flag === 'ambiguous' && marks.settled === null)
    throw new WhorlError('edit-refused', {
      what: `More than one rate explains this hit: ${reading.reasons[0] ?? 'see its candidates'}`,
      hint: 'Choose one of the candidates and say why, or hold the hit back.',
    })
}
