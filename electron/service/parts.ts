import type { CallInput } from '../../core/contract/calls.ts'
import type { Media } from '../media/media.ts'
import type { Workspace } from '../store/workspace.ts'
import type { Vision } from '../vision/vision.ts'
import type { Backups } from './backups.ts'
import type { Bus } from './bus.ts'
import type { LooseClips } from './loose-clips.ts'
import type { Prober } from './prober.ts'
import type { ReadQueue } from './read-queue.ts'
import type { Reader } from './reader.ts'
import type { SurfaceReader } from './surface-reader.ts'
import type { Taking } from './taking.ts'
import type { Watcher } from './watcher.ts'

/** What the families of calls share. Each takes what it needs of it. */
export type Parts = {
  workspace: Workspace
  media: Media
  vision: Vision
  bus: Bus
  backups: Backups
  loose: LooseClips
  prober: Prober
  reader: Reader
  surface: SurfaceReader
  queue: ReadQueue
  taking: Taking
  watcher: Watcher
  shell: 'desktop' | 'loopback'
  version: string
  /** The folders whose files the page may see and add; null where the person's own rights are the limit. */
  folders: string[] | null
  /** The desktop's own file dialog; null where there is none. */
  pick: ((purpose: CallInput<'files.pick'>['purpose']) => Promise<string[]>) | null
}
