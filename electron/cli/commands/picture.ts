import { resolve } from 'node:path'
import { WhorlError } from '../../../core/contract/problem.ts'
import {
  type PictureKind,
  pictureKindSchema,
  pictureOrderSchema,
  type SavedLook,
  type Subject,
} from '../../../core/contract/publish.ts'
import { ownWorkspace } from '../../service/data-folder.ts'
import { command, json } from '../command.ts'
import { manyOptions, publishInto } from '../many.ts'
import { pickEntrants } from '../pick-entrants.ts'
import { pickHit } from '../pick-hit.ts'
import { lookOption, pickLook } from '../pick-look.ts'
import { pickSession } from '../pick-session.ts'
import { oneOf, pictureSize, positiveNumber, text } from '../values.ts'
import { type Ask, existing, withHost } from '../with-host.ts'
import { endingOf, placeSaid, writePublished } from '../write-published.ts'

const kinds = pictureKindSchema.options
const drawnSchema = pictureOrderSchema.pick({ look: true, size: true })

export default command({
  says:
    'Draws a picture as SVG or PNG. Of one hit, named by its clip (CLIP or CLIP@FRAME):\n' +
    '  bearing      the mark’s bearing against time, the ball of each frame above its point\n' +
    '  flight       all places of the ball in one photograph\n' +
    '  turned-back  every ball turned back by the reading: where it is right, all look the same\n' +
    'Of one session, named by --session DAY:\n' +
    '  hits         a strip of every hit, with what was read\n' +
    '  dots         the hits of its paddles as dots\n' +
    'Of paddles, named as "NAME" or "NAME / SET-UP"; all of them where none is named:\n' +
    '  dots         every hit as a dot, with mean and band\n' +
    '  ranking      means with bands, and the places that each may hold\n' +
    '  rate         the band to expect at other frame rates, at the spin of the first paddle\n' +
    '  percentiles  one paddle in every metric\n' +
    '  difference   two paddles, and the difference of their means\n' +
    'With --into a picture for each paddle; of a hit, the one from its middle.',
  takes: 'KIND [WHAT…]',
  words: { least: 1, most: Number.POSITIVE_INFINITY },
  options: {
    to: { takes: 'FILE', says: 'the .svg or .png file to write', read: text },
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    look: lookOption,
    size: { takes: 'WxH', says: 'size in pixels; 800 wide and as high as it needs', read: pictureSize },
    font: { takes: 'N', says: 'size of the letters in pixels (14)', read: positiveNumber },
    ...manyOptions,
    json,
  },
  example: 'whorl picture difference "Heron 14" "Avocet 16" --to heron-avocet.svg',
  async run({ words: [kindWord = '', ...what], options }, world) {
    const kind = oneOf<PictureKind>(kinds)(kindWord, 'KIND')
    const { into, as = 'png', season, session } = options
    const to = into === undefined ? placeSaid(options.to, `${kind}.svg`) : as
    const format = endingOf(to, ['svg', 'png'] as const)
    const file = existing(options.workspace ? resolve(options.workspace) : ownWorkspace(world.env))
    return withHost(file, world, async ask => {
      const order = {
        kind,
        format,
        ...drawnBy(await pickLook(options.look, ask), options.size, options.font),
      }
      if (into !== undefined) {
        return publishInto({ into, season, session }, { what: 'picture', order }, ask, world, options.json)
      }
      const of = await subjectOf(kind, what, session, ask)
      writePublished(to, await ask('publish.picture', { of, ...order }), world, options.json)
      return 0
    })
  },
})

/** The look with what was said beside it. Throws the `usage` problem. */
function drawnBy(
  { look, size }: Omit<SavedLook, 'name'>,
  [widthPx, heightPx]: [number, number | null] = [size.widthPx, size.heightPx],
  fontPx = look.fontPx,
) {
  const drawn = drawnSchema.safeParse({ look: { ...look, fontPx }, size: { widthPx, heightPx } })
  if (drawn.success) return drawn.data
  const { path, message } = drawn.error.issues[0]!
  throw new WhorlError('usage', {
    what: `${path.join('.')} cannot be used: ${message}.`,
    hint: 'Pictures are 160 to 8000 pixels wide, letters 6 to 96 high.',
  })
}

async function subjectOf(
  kind: PictureKind,
  what: readonly string[],
  session: string | undefined,
  ask: Ask,
): Promise<Subject> {
  if (session !== undefined) return { sessionId: await pickSession(session, ask) }
  if (what.length === 0) return {}
  if (kind === 'bearing' || kind === 'flight' || kind === 'turned-back')
    return { hitId: pickHit(what[0]!, await ask('hits.list', {})).hitId }
  const { rows } = await ask('ratings.table', {})
  const entrants = rows.map(row => ({ ...row, figure: row.meanRpm }))
  return { setUpIds: pickEntrants(what, entrants).map(({ one }) => one.setUpId) }
}
