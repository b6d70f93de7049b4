import type { Database } from './database.ts'
import type { Workspace } from './workspace.ts'

/** What a person set for the whole workspace, as JSON by name. */
export const settingStore = (db: Database): Pick<Workspace, 'setting' | 'keepSetting'> => ({
  setting: name =>
    db.get<{ value: string }>('SELECT value FROM setting WHERE name = $name', { name })?.value ?? null,
  keepSetting: (name, value) => {
    db.run('INSERT OR REPLACE INTO setting (name, value) VALUES ($name, $value)', { name, value })
  },
})
