import { WhorlError } from '../../core/contract/problem.ts'
import { type SavedLook, themeSchema, usualClip, usualLook, usualSize } from '../../core/contract/publish.ts'
import type { Valued } from './command.ts'
import { text } from './values.ts'
import type { Ask } from './with-host.ts'

export const lookOption: Valued<string> = {
  takes: 'LOOK',
  says: `${themeSchema.options.join(', ')}, or a look kept in the app (light)`,
  read: text,
}

/** A theme's word with all else as usual, or a look that was kept. Throws `look-unknown`. */
export async function pickLook(said: string | undefined, ask: Ask): Promise<Omit<SavedLook, 'name'>> {
  const usual = { look: usualLook, size: usualSize, clip: usualClip }
  const isSaid = (word: string) => word.toLowerCase() === said?.toLowerCase()
  if (said === undefined) return usual
  const theme = themeSchema.options.find(isSaid)
  if (theme) return { ...usual, look: { ...usualLook, theme } }
  const kept = await ask('publish.looks', {})
  const look = kept.find(({ name }) => isSaid(name))
  if (look) return look
  const looks = [...themeSchema.options, ...kept.map(({ name }) => `“${name}”`)].join(', ')
  throw new WhorlError('look-unknown', { name: said, looks })
}
