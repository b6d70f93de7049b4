import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { Media } from '../../../electron/media/media.ts'
import { cleanChecked, spoiledChecked } from '../../bench/clips/check.ts'
import { cleanClips } from '../../bench/clips/clean.ts'
import { spoiledClips } from '../../bench/clips/spoiled.ts'
import { Clips } from './clips.ts'

/** A small part of `npm run bench:clips`, which holds many more. */
const clips = new Clips()
let media: Media
beforeAll(() => {
  media = createMedia()
})
afterAll(async () => {
  await media.close()
  clips.remove()
})

const named = <T extends { name: string }>(list: readonly T[], name: string): T =>
  list.find(clip => clip.name === name)!

describe('no false alarm', () => {
  test.each([
    ['a ball that fills the picture', 'h264-near-ball.mp4'],
    ['a coder and a muxer that share nothing with ffmpeg', 'h264-other-coder.mp4'],
    ['a stand that trembles', 'hevc-trembling.mp4'],
    ['HEVC, muxed by another program', 'hevc-other-muxer.mp4'],
  ])('%s', async (_, name) => {
    const { alarms, missed } = await cleanChecked(media, named(cleanClips, name), clips.folder)
    expect([...alarms, ...missed]).toEqual([])
  })
})

describe('what was built in is found', () => {
  test.each([
    ['a view that is cropped after the ball', 'stabilised-h264.mp4'],
    ['a view that is scaled on the way', 'stabilised-scaled-h264.mp4'],
    ['bands of a lamp', 'flicker-bands-h264.mp4'],
    ['slow motion whose key tells the rate', 'slow-motion-key-0.mp4'],
  ])('%s', async (_, name) => {
    const { found, message } = await spoiledChecked(media, named(spoiledClips, name), clips.folder)
    expect(message).not.toBe('')
    expect(found).toBe(true)
  })
})
