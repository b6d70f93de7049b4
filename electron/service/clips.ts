import { basename, resolve } from 'node:path'
import type { CallContext, Service } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ClipRecord } from '../../core/contract/workspace.ts'
import { pathInside } from './folders.ts'
import { locate } from './locate.ts'
import type { Parts } from './parts.ts'
import { clipsFolderOf } from './receive.ts'

type Calls =
  | 'clips.list'
  | 'clips.add'
  | 'clips.open'
  | 'clips.locate'
  | 'clips.setCaptureFps'
  | 'clips.remove'
  | 'clips.prepare'

export const clipCalls = (parts: Parts): Pick<Service, Calls> => {
  const { workspace, media, bus, prober, reader } = parts
  const folders = parts.folders && [...parts.folders, clipsFolderOf(workspace.file)]
  const changed = (id: string | null) => bus.say({ kind: 'changed', what: 'clips', id })

  /** On the list at once, so that it can be opened while its file is still being looked at. */
  function enter(sessionId: string, path: string): ClipRecord {
    const whole = pathInside(folders, path)
    const there = workspace.clips(sessionId).find(clip => resolve(clip.path) === whole)
    return (
      there ??
      workspace.addClip(sessionId, { path: whole, probe: null, problem: null, timestampsSeconds: [] })
    )
  }

  return {
    'clips.list': async ({ sessionId }) => {
      const records = workspace.clips(sessionId)
      prober.catchUp(records)
      return records.map(prober.asNow)
    },

    'clips.add': async ({ sessionId, paths }, { signal, progress }) => {
      // Cameras number their clips: by name they come in the order in which they were filmed.
      const byPath = new Map(paths.toSorted(byName).map(path => [path, enter(sessionId, path)]))
      const entered = paths.map(path => byPath.get(path)!)
      changed(null)
      const say = sumOf(entered.length, progress)
      const looks = entered.map(async ({ id, name }, i) => {
        const clip = await prober.complete(id, {
          signal,
          progress: p => say(i, name, p.done / (p.total ?? 1)),
        })
        say(i, name, 1)
        return clip
      })
      const looked = await Promise.allSettled(looks)
      if (signal.aborted) {
        takeBack(parts, entered)
        changed(null)
        throw new WhorlError('cancelled', { what: 'Adding clips' })
      }
      const clips = looked.map(look => {
        if (look.status === 'rejected') throw look.reason
        return look.value
      })
      return { clips: [...new Map(clips.map(clip => [clip.id, clip])).values()] }
    },

    'clips.open': async ({ clipId }, { signal }) => {
      const clip = prober.asNow(workspace.clip(clipId))
      if (clip.problem) return { clip, timestampsSeconds: [] }
      prober.catchUp([clip])
      const known = workspace.timestampsSeconds(clipId)
      return {
        clip,
        timestampsSeconds: known.length > 0 ? known : await media.timestamps(clip.path, { signal }),
      }
    },

    'clips.locate': async ({ clipId, path }, { signal }) => {
      const file = await locate(workspace.clip(clipId), pathInside(folders, path), signal)
      const record = workspace.locate(clipId, file)
      changed(clipId)
      return record.probe ? record : prober.complete(clipId, { signal })
    },

    'clips.setCaptureFps': async ({ clipId, captureFps }) => {
      workspace.setCaptureFps(clipId, captureFps)
      reader.readStale({ clipId })
      changed(clipId)
      bus.say({ kind: 'changed', what: 'hits', id: null })
      return prober.asNow(workspace.clip(clipId))
    },

    'clips.remove': async ({ clipId }) => {
      workspace.removeClip(clipId)
      changed(clipId)
      bus.say({ kind: 'changed', what: 'hits', id: null })
      return null
    },

    'clips.prepare': async ({ clipId, window }, { signal, progress }) => {
      await media.prepare(prober.pathOf(workspace.clip(clipId)), window, { signal, progress })
      return null
    },
  }
}

const inOrder = new Intl.Collator('en', { numeric: true })
const byName = (a: string, b: string): number => inOrder.compare(basename(a), basename(b))

/** Several files' progress as one: how many are done, a half-done one counting as half. */
function sumOf(total: number, progress: CallContext['progress']) {
  const shares = new Array<number>(total).fill(0)
  return (i: number, what: string, share: number): void => {
    shares[i] = Math.min(1, share)
    progress({ what, done: shares.reduce((sum, each) => sum + each, 0), total })
  }
}

/** After a cancel: clips that were looked at stay, those that were not and hold no work go again. */
function takeBack({ workspace }: Parts, entered: ClipRecord[]): void {
  for (const { id } of entered) {
    const { probe, problem, hits } = workspace.clip(id)
    if (probe === null && problem === null && hits === 0) workspace.removeClip(id)
  }
}
