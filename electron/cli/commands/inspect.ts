import { resolve } from 'node:path'
import type { Clip, Effect } from '../../../core/contract/clip.ts'
import { createMedia } from '../../media/create-media.ts'
import { command, json } from '../command.ts'
import { forEachInput } from '../failure.ts'
import { progressBar } from '../progress-bar.ts'
import { positiveNumber } from '../values.ts'

export default command({
  says: 'Says what a clip is: frames, times, rates and whatever to know before measuring on it.',
  takes: 'CLIP…',
  words: { least: 1, most: Number.POSITIVE_INFINITY },
  options: {
    'capture-fps': { takes: 'N', says: 'frames a second that the camera filmed at', read: positiveNumber },
    json,
  },
  example: 'whorl inspect serve-014.mp4 --capture-fps 240',
  async run({ words, options }, world) {
    const media = createMedia()
    const bar = progressBar(world)
    try {
      return await forEachInput(words, world, options.json, async word => {
        try {
          const captureFps = options['capture-fps'] ?? null
          const probing = { captureFps, signal: world.signal, progress: bar.show }
          const clip = await media.probe(resolve(word), probing)
          bar.clear()
          world.out(
            options.json ? `${JSON.stringify(clip)}\n` : `${told(clip)}${words.length > 1 ? '\n' : ''}`,
          )
        } finally {
          bar.clear()
        }
      })
    } finally {
      await media.close()
    }
  },
})

const rate = (fps: number | null): string => (fps === null ? 'unknown' : `${Number(fps.toFixed(3))} fps`)

const sourceWords: Record<Clip['capture']['source'], string> = {
  user: 'as you say',
  metadata: 'the file says so',
  timestamps: 'from the frame times',
  unknown: 'say it with --capture-fps',
}

/** What a finding does to a reading. */
const effectWords: Record<Effect, string> = {
  none: 'no effect',
  correct: 'corrected',
  widen: 'less sure',
  refuse: 'do not measure',
}

function told(clip: Clip): string {
  const turned = clip.rotationDeg === 0 ? '' : `, turned by ${clip.rotationDeg}°`
  const lines = [
    clip.path,
    `  picture   ${clip.widthPx} × ${clip.heightPx}${turned}, ${clip.codec} (${clip.pixelFormat}) in ${clip.container}`,
    `  frames    ${clip.frames} in ${clip.durationSeconds.toFixed(3)} s, played at ${rate(clip.playbackFps)}`,
    `  filmed at ${rate(clip.capture.fps)} (${sourceWords[clip.capture.source]})`,
    `  times     ${clip.timestamps.even ? 'even' : 'uneven'}${gapsTold(clip)}`,
    ...clip.warnings.map(
      ({ message, effect, todo }) =>
        `  !  ${message}${effect === undefined ? '' : ` [${effectWords[effect]}] ${todo}`}`,
    ),
  ]
  return `${lines.join('\n')}\n`
}

function gapsTold({ timestamps: { gaps, repeats } }: Clip): string {
  const missing = gaps.reduce((sum, gap) => sum + gap.missing, 0)
  return [
    missing > 0 ? `, ${missing} missing in ${gaps.length} gaps` : '',
    repeats.length > 0 ? `, ${repeats.length} repeated` : '',
  ].join('')
}
