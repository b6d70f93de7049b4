import { createMedia } from '../media/create-media.ts'
import { openWorkspace } from '../store/open-workspace.ts'
import { createVision } from '../vision/vision.ts'
import type { AppHost } from './app-host.ts'
import { createBackups } from './backups.ts'
import { createBus } from './bus.ts'
import { knownServers } from './known-servers.ts'
import { createLooseClips } from './loose-clips.ts'
import type { Parts } from './parts.ts'
import { createProber } from './prober.ts'
import { createReadQueue } from './read-queue.ts'
import { createReader } from './reader.ts'
import { receive } from './receive.ts'
import { createService } from './service.ts'
import { createSurfaceReader } from './surface-reader.ts'
import { createTaking } from './taking.ts'
import { version } from './version.ts'
import { createWatcher } from './watcher.ts'

export type HostOptions = {
  workspaceFile: string
  /** Goes on with the queue and the watched folders: for the app, not for a command that ends at once. */
  goesOn?: boolean
} & Pick<Parts, 'shell' | 'folders' | 'pick'>

/** Opens a workspace with everything behind it. Throws what `openWorkspace` throws. */
export function openHost({ workspaceFile, goesOn = false, ...shell }: HostOptions): AppHost {
  const workspace = openWorkspace(workspaceFile, { now: () => new Date() })
  const media = createMedia()
  const bus = createBus()
  const vision = createVision(media)
  const surface = createSurfaceReader({ workspace, vision, bus })
  const reader = createReader(workspace, surface.later)
  const prober = createProber({ workspace, media, bus, reader })
  const queue = createReadQueue({ workspace, surface, prober, bus })
  const watcher = createWatcher({ workspace, prober, queue, bus })
  const servers = knownServers()
  const taking = createTaking({ workspace, surface, prober, bus, servers })
  const loose = createLooseClips()
  const backups = createBackups({ workspace, bus })
  if (goesOn) {
    backups.keepUp()
    queue.goOn()
    watcher.goOn()
    taking.goOn()
  }
  const own = {
    workspace,
    media,
    vision,
    bus,
    backups,
    loose,
    reader,
    prober,
    surface,
    queue,
    watcher,
    taking,
    version,
  }
  return {
    service: createService({ ...own, ...shell }, servers),
    frame: async (clipId, frame, options) =>
      media.frame(loose.pathOf(clipId) ?? prober.pathOf(workspace.clip(clipId)), frame, options),
    receive: upload => receive(workspaceFile, upload),
    bus,
    close: async () => {
      await backups.close()
      await watcher.close()
      await taking.close()
      await queue.close()
      await surface.close()
      await vision.close()
      await prober.close()
      await media.close()
      workspace.close()
    },
  }
}
