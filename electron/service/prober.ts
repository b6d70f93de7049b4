import { existsSync, statSync } from 'node:fs'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ClipRecord } from '../../core/contract/workspace.ts'
import type { JobOptions, Media } from '../media/media.ts'
import type { FoundClip, Workspace } from '../store/workspace.ts'
import type { Bus } from './bus.ts'
import { createLanes } from './lanes.ts'
import type { Reader } from './reader.ts'

/** Looks at clips' files and writes down what they are. A clip can be opened before that is done. */
export type Prober = {
  /**
   * Probes one clip and stores what was found, the problem with the file included. Asked twice at once, it
   * looks once. Rejects as `cancelled` only.
   */
  complete(clipId: string, options?: JobOptions): Promise<ClipRecord>
  /** Starts, in the background, on clips that nobody has looked at yet or whose file has come back. */
  catchUp(records: readonly ClipRecord[]): void
  /** The record as it stands now: a file that is no longer at its path, or another one there, says so. */
  asNow(record: ClipRecord): ClipRecord
  /** Where the clip's file lies. Throws `file-not-found`, or `clip-not-same` when another lies there. */
  pathOf(record: ClipRecord): string
  close(): Promise<void>
}

type Needs = { workspace: Workspace; media: Media; bus: Bus; reader: Reader }

export function createProber({ workspace, media, bus, reader }: Needs): Prober {
  const running = new Map<string, Promise<ClipRecord>>()
  // a probe decodes on every core already; two at a time hide the starting of programs
  const inLane = createLanes(2)
  const closing = new AbortController()

  async function look(path: string, { signal, progress }: JobOptions): Promise<FoundClip> {
    const stop = AbortSignal.any([closing.signal, ...(signal ? [signal] : [])])
    if (stop.aborted) throw new WhorlError('cancelled', { what: 'Looking at the clip' })
    try {
      const probe = await media.probe(path, { signal: stop, progress })
      const timestampsSeconds = await media.timestamps(path, { signal: stop })
      return { path, probe, problem: null, timestampsSeconds }
    } catch (error) {
      if (stop.aborted || !(error instanceof WhorlError)) throw error
      return { path, probe: null, problem: error.toProblem(), timestampsSeconds: [] }
    }
  }

  async function completeOnce(clipId: string, options: JobOptions): Promise<ClipRecord> {
    const found = await look(workspace.clip(clipId).path, options)
    const record = keep(clipId, found)
    reader.readStale({ clipId: record.id })
    bus.say({ kind: 'changed', what: 'clips', id: record.id })
    if (record.hits > 0) bus.say({ kind: 'changed', what: 'hits', id: null })
    return record
  }

  /** The same contents again, without work on them yet, become one clip: the one that was there first. */
  function keep(clipId: string, found: FoundClip): ClipRecord {
    const { sessionId, hits } = workspace.clip(clipId)
    const twin =
      found.probe && hits === 0
        ? workspace
            .findClipsBySha256(found.probe.sha256)
            .find(clip => clip.sessionId === sessionId && clip.id !== clipId)
        : undefined
    if (twin === undefined) return workspace.setProbe(clipId, found)
    workspace.removeClip(clipId)
    bus.say({ kind: 'changed', what: 'clips', id: clipId })
    return workspace.setProbe(twin.id, found)
  }

  const complete: Prober['complete'] = (clipId, options = {}) => {
    const already = running.get(clipId)
    if (already) return already
    const job = inLane(() => completeOnce(clipId, options)).finally(() => running.delete(clipId))
    running.set(clipId, job)
    return job
  }

  return {
    complete,
    catchUp(records) {
      for (const record of records) {
        if (record.probe === null && isUnseen(record)) complete(record.id).catch(() => {})
      }
    },
    asNow(record) {
      const trouble = troubleNow(record)
      return trouble ? { ...record, probe: null, problem: trouble.toProblem() } : record
    },
    pathOf(record) {
      const trouble = troubleNow(record)
      if (trouble) throw trouble
      return record.path
    },
    async close() {
      closing.abort()
      await Promise.allSettled(running.values())
    },
  }
}

/** Another file in a clip's place is told by its size: its hash would have to be read for every picture. */
function troubleNow({ path, name, probe }: ClipRecord): WhorlError | null {
  const stat = statSync(path, { throwIfNoEntry: false })
  if (stat === undefined) return new WhorlError('file-not-found', { path })
  return probe && stat.size !== probe.bytes ? new WhorlError('clip-not-same', { path, name }) : null
}

const isUnseen = ({ problem, path }: ClipRecord): boolean =>
  problem === null || (problem.code === 'file-not-found' && existsSync(path))
