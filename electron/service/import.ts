import type { Service } from '../../core/contract/calls.ts'
import { previewImport, undoImport, writeImport } from '../import/import.ts'
import type { KnownServers } from './known-servers.ts'
import type { Parts } from './parts.ts'

type Calls = 'import.preview' | 'import.write' | 'import.undo'

/** From a table of the person's into the workspace, and back out. */
export const importCalls = ({ workspace, bus }: Parts, servers: KnownServers): Pick<Service, Calls> => {
  const changed = () => {
    bus.say({ kind: 'changed', what: 'paddles', id: null })
    bus.say({ kind: 'changed', what: 'transfers', id: null })
  }
  return {
    'import.preview': async ({ source, rules }) => previewImport(workspace, servers.wholeOf(source), rules),
    'import.write': async ({ source, rules }) => {
      const plan = await writeImport(workspace, servers.wholeOf(source), rules)
      changed()
      return plan
    },
    'import.undo': async ({ transferId }) => {
      undoImport(workspace, transferId)
      changed()
      return null
    },
  }
}
