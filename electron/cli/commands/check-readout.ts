import { basename, resolve } from 'node:path'
import { WhorlError } from '../../../core/contract/problem.ts'
import type { ReadoutCheck } from '../../../core/contract/readout-check.ts'
import { readoutCheckOf } from '../../../core/planning/readout-check/readout-check-of.ts'
import { createMedia } from '../../media/create-media.ts'
import { type ReadoutAsk, readoutOfClip } from '../../media/readout-of-clip.ts'
import { command, json } from '../command.ts'
import { keepInCamera, saveOptions } from '../keep-in-camera.ts'
import { positiveNumber } from '../values.ts'

export default command({
  says:
    'How long a rolling shutter takes from its first row to its last, from a clip of a mains lamp’s bands on a\n' +
    'plain wall, of a pattern that spins evenly and face on (a line across a disc in a drill), or of an upright\n' +
    'straight edge that is moved sideways, to and fro. Film as you film hits: same rate, same size, upright.',
  takes: 'CLIP',
  words: { least: 1, most: 1 },
  options: {
    lamp: {
      takes: 'HZ',
      says: 'bands of a lamp that flashes so often: 100 or 120',
      read: positiveNumber,
    },
    spin: { says: 'something that spins, slower than half the frame rate over the times it looks the same' },
    edge: { says: 'an upright edge, moved to and fro' },
    fps: { takes: 'N', says: 'true capture rate, see check-rate', read: positiveNumber },
    ...saveOptions,
    json,
  },
  example: 'whorl check-readout --spin --fps 239.8 drill.mp4',
  run: async ({ words, options }, world) => {
    const { lamp, spin, edge, fps, json: asJson } = options
    const asks = (captureFps: number): ReadoutAsk[] => [
      ...(lamp === undefined ? [] : [{ way: 'lamp' as const, lampHertz: lamp, captureFps }]),
      ...(spin ? [{ way: 'spin' as const, captureFps }] : []),
      ...(edge ? [{ way: 'edge' as const, captureFps }] : []),
    ]
    if (fps === undefined) throw usage('check-readout needs --fps.')
    const [ask, ...others] = asks(fps)
    if (!ask || others.length > 0)
      throw usage(`Expected one of --lamp, --spin and --edge, got ${ask ? others.length + 1 : 'none'}.`)
    const media = createMedia()
    try {
      const found = await readoutOfClip(media, resolve(words[0]!), ask, { signal: world.signal })
      const check = readoutCheckOf(ask.way, fps, found)
      const kept = keepInCamera(options, world, null, day => ({
        readout: {
          seconds: check.readoutSeconds,
          uncertaintySeconds: check.standardUncertaintySeconds,
          by: { way: ask.way === 'lamp' ? 'bands' : ask.way, clip: basename(words[0]!), day },
        },
      }))
      world.out(asJson ? `${JSON.stringify(check)}\n` : told(check) + kept)
      return 0
    } finally {
      await media.close()
    }
  },
})

const usage = (what: string) => new WhorlError('usage', { what, hint: 'See whorl check-readout --help.' })

function told({ readoutSeconds, standardUncertaintySeconds, rpmEffect, remarks }: ReadoutCheck): string {
  const ms = (seconds: number) => (1000 * seconds).toFixed(3)
  const percent = (part: number) => `${(100 * part).toFixed(2)} %`
  return [
    `readout   ${ms(readoutSeconds)} ± ${ms(2 * standardUncertaintySeconds)} ms (standard uncertainty ${ms(standardUncertaintySeconds)} ms)`,
    `on rpm    ${percent(rpmEffect.uncorrectedRelative)} for a ball that moves down ${rpmEffect.heightsPerSecond} picture heights a second, if left out; ± ${percent(2 * rpmEffect.leftRelative)} once it is in`,
    ...remarks,
    '',
  ].join('\n')
}
