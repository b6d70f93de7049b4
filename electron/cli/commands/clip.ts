import { resolve } from 'node:path'
import { WhorlError } from '../../../core/contract/problem.ts'
import {
  type ClipStyle,
  type ClipView,
  clipFormatSchema,
  clipStyleSchema,
  clipViewSchema,
} from '../../../core/contract/publish.ts'
import { ownWorkspace } from '../../service/data-folder.ts'
import { command, json } from '../command.ts'
import { manyOptions, publishInto } from '../many.ts'
import { pickHit } from '../pick-hit.ts'
import { lookOption, pickLook } from '../pick-look.ts'
import { progressBar } from '../progress-bar.ts'
import { oneOf, positiveNumber, text } from '../values.ts'
import { existing, withHost } from '../with-host.ts'
import { endingOf, placeSaid, writePublished } from '../write-published.ts'

export default command({
  says:
    'Writes a hit as a slowed clip (MP4, GIF or WebP) with the ball’s outline, its marks and bearings, the axis, a\n' +
    'running count of turns, and the reading with its band and flag. With --into a clip for each paddle, of the\n' +
    'hit from its middle.',
  takes: 'HIT (CLIP, or CLIP@FRAME where a clip has several)',
  words: { least: 0, most: 1 },
  options: {
    to: { takes: 'FILE', says: 'the .mp4, .gif or .webp file to write', read: text },
    view: {
      takes: 'VIEW',
      says: `${clipViewSchema.options.join(', ')} (frame)`,
      read: oneOf<ClipView>(clipViewSchema.options),
    },
    slowed: { takes: 'N', says: 'how many times slower than real time (8)', read: positiveNumber },
    height: { takes: 'N', says: 'the shorter side in pixels (720)', read: positiveNumber },
    look: lookOption,
    ...manyOptions,
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    json,
  },
  example: 'whorl clip drive-03.mp4 --view both --to drive-03-slow.mp4',
  async run({ words: [word], options }, world) {
    const { into, as = 'mp4', season, session } = options
    const to = into === undefined ? placeSaid(options.to, 'slow.mp4') : as
    const format = endingOf(to, clipFormatSchema.options)
    if (into === undefined && word === undefined)
      throw new WhorlError('usage', {
        what: 'Which hit is missing.',
        hint: 'Name it by its clip, as drive-03.mp4 or drive-03.mp4@41; or say --into FOLDER for each paddle.',
      })
    const file = existing(options.workspace ? resolve(options.workspace) : ownWorkspace(world.env))
    const bar = progressBar(world)
    try {
      return await withHost(file, world, async ask => {
        const { clip, look } = await pickLook(options.look, ask)
        const order = {
          ...styled(clip, options.view, options.slowed, options.height),
          ...{ format, figures: look.figures },
        }
        if (into !== undefined) {
          return publishInto({ into, season, session }, { what: 'clip', order }, ask, world, options.json)
        }
        const { hitId } = pickHit(word!, await ask('hits.list', {}))
        const made = await ask('publish.clip', { ...order, hitId }, bar.show)
        bar.clear()
        writePublished(to, made, world, options.json)
        return 0
      })
    } finally {
      bar.clear()
    }
  },
})

/** The kept style with what was said beside it. Throws the `usage` problem. */
function styled(clip: ClipStyle, view = clip.view, slowed = clip.slowed, shortPx = clip.shortPx): ClipStyle {
  const said = clipStyleSchema.safeParse({ ...clip, view, slowed, shortPx })
  if (said.success) return said.data
  const { path, message } = said.error.issues[0]!
  throw new WhorlError('usage', {
    what: `${path.join('.')} cannot be used: ${message}.`,
    hint: 'Clips are slowed 1 to 1000 times; their shorter side has 240 to 2160 pixels, a whole number.',
  })
}
