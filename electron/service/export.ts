import type { Service } from '../../core/contract/calls.ts'
import { lookAt, previewExport, undoExport, writeExport } from '../export/export.ts'
import type { KnownServers } from './known-servers.ts'
import type { Parts } from './parts.ts'

type Calls = 'export.look' | 'export.preview' | 'export.write' | 'export.undo' | 'transfers.list'

/** Figures are read again first, where marks or cameras changed: what goes out is what the marks say now. */
export const exportCalls = (
  { workspace, reader, bus }: Parts,
  servers: KnownServers,
): Pick<Service, Calls> => ({
  'export.look': async ({ target }) => lookAt(workspace, servers.wholeOf(target)),
  'export.preview': async ({ target, mapping }) => {
    reader.readStale({})
    return previewExport(workspace, { target: servers.wholeOf(target), mapping })
  },
  'export.write': async ({ target, mapping }) => {
    reader.readStale({})
    const plan = await writeExport(workspace, { target: servers.wholeOf(target), mapping })
    bus.say({ kind: 'changed', what: 'transfers', id: null })
    return plan
  },
  'export.undo': async ({ target }) => {
    const undone = await undoExport(workspace, servers.wholeOf(target))
    bus.say({ kind: 'changed', what: 'transfers', id: null })
    return undone
  },
  'transfers.list': async () => workspace.transfers(),
})
