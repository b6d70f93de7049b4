import { statSync } from 'node:fs'
import type { Service } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { pathInside } from './folders.ts'
import type { Parts } from './parts.ts'

type Calls =
  | 'clips.read'
  | 'hits.read'
  | 'queue.start'
  | 'queue.state'
  | 'queue.cancel'
  | 'watch.set'
  | 'watch.state'

/** What the program reads by itself: a clip, a hit, all clips of a session, those that arrive in a folder. */
export const readingCalls = (parts: Parts): Pick<Service, Calls> => {
  const { workspace, surface, queue, watcher } = parts
  return {
    'clips.read': async ({ clipId }, job) => surface.readClip(clipId, job),
    'hits.read': async ({ hitId }, job) => surface.readHit(hitId, job),
    'queue.start': async ({ sessionId }) => {
      workspace.session(sessionId)
      // A clip with hits was worked on already: by a person, or by an earlier reading.
      const unread = workspace.clips(sessionId).filter(({ hits, problem }) => hits === 0 && problem === null)
      queue.put(unread.map(({ id }) => id))
      return queue.state(sessionId)
    },
    'queue.state': async ({ sessionId }) => queue.state(sessionId),
    'queue.cancel': async ({ sessionId }) => {
      queue.cancel(sessionId)
      return queue.state(sessionId)
    },
    'watch.set': async ({ sessionId, folder }) => {
      workspace.session(sessionId)
      const path = folder === null ? null : pathInside(parts.folders, folder)
      if (path !== null && !statSync(path, { throwIfNoEntry: false })?.isDirectory())
        throw new WhorlError('folder-not-there', { path })
      watcher.watch(sessionId, path)
      return watcher.state(sessionId)
    },
    'watch.state': async ({ sessionId }) => watcher.state(sessionId),
  }
}
