import { z } from 'zod'
import { type SavedLook, savedLookSchema } from '../../core/contract/publish.ts'
import type { Workspace } from '../store/workspace.ts'
import type { Parts } from './parts.ts'

const setting = 'publish-looks'

/** The looks that were kept, by name; what another version kept in another form is left out. */
export function looksOf(workspace: Pick<Workspace, 'setting'>): SavedLook[] {
  const kept = z.array(z.unknown()).safeParse(JSON.parse(workspace.setting(setting) ?? '[]')).data ?? []
  return kept.flatMap(one => savedLookSchema.safeParse(one).data ?? [])
}

export const keepLook = (parts: Pick<Parts, 'workspace' | 'bus'>, saved: SavedLook): SavedLook[] =>
  write(parts, [...looksOf(parts.workspace).filter(({ name }) => !isSame(name, saved.name)), saved])

export const dropLook = (parts: Pick<Parts, 'workspace' | 'bus'>, name: string): SavedLook[] =>
  write(
    parts,
    looksOf(parts.workspace).filter(look => !isSame(look.name, name)),
  )

const isSame = (a: string, b: string) => a.toLowerCase() === b.toLowerCase()

function write(
  { workspace, bus }: Pick<Parts, 'workspace' | 'bus'>,
  looks: readonly SavedLook[],
): SavedLook[] {
  const sorted = looks.toSorted((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }))
  workspace.keepSetting(setting, JSON.stringify(sorted))
  bus.say({ kind: 'changed', what: 'looks', id: null })
  return sorted
}
