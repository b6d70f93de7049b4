import { mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach } from 'vitest'
import type { CallChecked, CallContext, CallName, HostEvent } from '../../../core/contract/calls.ts'
import { createBackups } from '../../../electron/service/backups.ts'
import { createBus } from '../../../electron/service/bus.ts'
import { knownServers } from '../../../electron/service/known-servers.ts'
import { createLooseClips } from '../../../electron/service/loose-clips.ts'
import { createProber } from '../../../electron/service/prober.ts'
import { createReadQueue } from '../../../electron/service/read-queue.ts'
import { createReader } from '../../../electron/service/reader.ts'
import { createService } from '../../../electron/service/service.ts'
import { createSurfaceReader } from '../../../electron/service/surface-reader.ts'
import { createTaking } from '../../../electron/service/taking.ts'
import { createWatcher } from '../../../electron/service/watcher.ts'
import { openWorkspace } from '../../../electron/store/open-workspace.ts'
import { sessionDetails } from './stand-in-host.ts'
import { standInMedia } from './stand-in-media.ts'
import { standInVision } from './stand-in-vision.ts'

const closing: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const close of closing.splice(0)) await close()
})

/** The real service on a real workspace in a folder of its own; only decoding is stood in for. */
export function openService(
  before?: Parameters<typeof standInMedia>[0],
  shell: { folders: string[] | null } = { folders: null },
) {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'whorl-service-')))
  const workspace = openWorkspace(join(folder, 'workspace.sqlite'), { now: () => new Date() })
  const { media, probed } = standInMedia(before)
  const bus = createBus()
  const events: HostEvent[] = []
  bus.on(event => events.push(event))
  const { vision, read } = standInVision()
  const surface = createSurfaceReader({ workspace, vision, bus })
  const reader = createReader(workspace, surface.later)
  const prober = createProber({ workspace, media, bus, reader })
  const queue = createReadQueue({ workspace, surface, prober, bus })
  const watcher = createWatcher({ workspace, prober, queue, bus, everyMilliseconds: 20 })
  const servers = knownServers()
  const taking = createTaking({ workspace, surface, prober, bus, servers, everyMilliseconds: 20 })
  const parts = {
    workspace,
    media,
    vision,
    loose: createLooseClips(),
    bus,
    reader,
    prober,
    surface,
    queue,
    watcher,
    taking,
    backups: createBackups({ workspace, bus }),
    version: '0',
    shell: 'loopback' as const,
    pick: null,
  }
  const service = createService({ ...parts, ...shell }, servers)
  closing.push(async () => {
    await parts.backups.close()
    await watcher.close()
    await taking.close()
    await queue.close()
    await surface.close()
    await prober.close()
    workspace.close()
    rmSync(folder, { recursive: true })
  })

  const call = <N extends CallName>(name: N, input: CallChecked<N>, context: Partial<CallContext> = {}) =>
    service[name](input, { signal: new AbortController().signal, progress: () => {}, ...context })
  const file = (name: string, content: string): string => {
    writeFileSync(join(folder, name), content)
    return join(folder, name)
  }
  const session = () => call('sessions.create', { details: sessionDetails })
  return { folder, workspace, service, call, file, session, events, probed, read, parts }
}
export type OpenService = ReturnType<typeof openService>
