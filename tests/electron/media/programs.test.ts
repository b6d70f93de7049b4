import { chmodSync, copyFileSync, mkdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { afterAll, afterEach, describe, expect, test, vi } from 'vitest'
import { createMedia } from '../../../electron/media/create-media.ts'
import { makeRunnable } from '../../../electron/media/programs.ts'
import { outsideArchive } from '../../../electron/service/places.ts'
import { builds, makers, toolsOf } from './builds.ts'
import { Clips, h264 } from './clips.ts'

const clips = new Clips()
afterAll(() => clips.remove())
afterEach(() => vi.unstubAllEnvs())

describe('the programs', () => {
  test.each(builds)('of %s are found, with their version and where they come from', async programs => {
    const media = createMedia({ programs })
    const { ffmpeg, ffprobe } = await media.programs()
    await media.close()
    for (const { path, origin, version } of [ffmpeg, ffprobe]) {
      expect(statSync(path).mode & 0o111).not.toBe(0)
      expect(version).not.toBe('')
      expect(origin === 'the system').toBe(programs === 'system')
    }
  })

  test('come from the packages before the system, unless the environment says otherwise', async () => {
    expect((await toolsOf('any')).ffmpeg.origin).not.toBe('the system')
    vi.stubEnv('WHORL_FFMPEG', 'system')
    vi.stubEnv('PATH', fakes())
    expect((await toolsOf(undefined)).ffmpeg).toEqual({
      path: clips.path('bin/ffmpeg'),
      origin: 'the system',
      version: '99.1',
    })
  })

  test('that cannot be found are named, with all places that were tried', async () => {
    vi.stubEnv('PATH', clips.folder)
    const media = createMedia({ programs: 'system' })
    await expect(media.frame(clips.film('a.mp4', h264()), 0)).rejects.toMatchObject({
      code: 'ffmpeg-missing',
      message: expect.stringMatching(/ff(mpeg|probe) was not found \(tried: the system\)/),
    })
    // What was missing may be installed while Whorl runs.
    vi.stubEnv('PATH', fakes())
    expect((await media.programs()).ffmpeg.version).toBe('99.1')
    await media.close()
  })

  test.each([
    ['modern', ['-fps_mode', 'passthrough']],
    ['old', ['-vsync', 'passthrough']],
  ])('tell by themselves by which option a %s build hands out every frame', async (age, option) => {
    vi.stubEnv('PATH', fakes(age === 'old'))
    expect((await toolsOf('system')).everyFrame).toEqual(option)
  })

  test('that vanish or break while Whorl runs are a problem with a name, not the end of the host', async () => {
    const folder = clips.path('vanishing')
    mkdirSync(folder)
    const stands = (name: 'ffmpeg' | 'ffprobe', words: string) =>
      writeFileSync(`${folder}/${name}`, `#!/bin/sh\n${words}\n`, { mode: 0o755 })
    for (const name of ['ffmpeg', 'ffprobe'] as const) stands(name, `exec '${makers[name].path}' "$@"`)
    vi.stubEnv('PATH', `${folder}:${process.env.PATH}`)
    const film = clips.film('a.mp4', h264())
    const media = createMedia({ programs: 'system' })
    await media.timestamps(film)
    const results = () => {
      const window = { fromFrame: 1, toFrame: 2 }
      const calls = [media.probe(film), media.frame(film, 0), media.prepare(film, window)]
      return Promise.all(
        calls.map(call =>
          call.then(
            () => 'went well',
            error => error.code,
          ),
        ),
      )
    }
    rmSync(`${folder}/ffmpeg`)
    expect(await results()).toEqual(['ffmpeg-failed', 'ffmpeg-failed', 'ffmpeg-failed'])
    stands('ffmpeg', 'kill -SEGV $$')
    expect(await results()).toEqual(['ffmpeg-failed', 'ffmpeg-failed', 'ffmpeg-failed'])
    stands('ffmpeg', `exec '${makers.ffmpeg.path}' "$@"`)
    expect(await results()).toEqual(['went well', 'went well', 'went well'])
    await media.close()
  })

  test('without the run bit get it', async () => {
    copyFileSync(makers.ffprobe.path, clips.path('ffprobe'))
    chmodSync(clips.path('ffprobe'), 0o644)
    expect(await makeRunnable(clips.path('ffprobe'))).toBe(true)
    expect(statSync(clips.path('ffprobe')).mode & 0o777).toBe(0o755)
    expect(await makeRunnable(clips.path('nothing'))).toBe(false)
  })

  test('inside the app’s archive are looked for beside it', () => {
    expect(outsideArchive('/opt/whorl/app.asar/node_modules/a/ffmpeg')).toBe(
      '/opt/whorl/app.asar.unpacked/node_modules/a/ffmpeg',
    )
    expect(outsideArchive('C:\\whorl\\app.asar\\ffmpeg.exe')).toBe('C:\\whorl\\app.asar.unpacked\\ffmpeg.exe')
    expect(outsideArchive('/opt/app.asar.unpacked/ffmpeg')).toBe('/opt/app.asar.unpacked/ffmpeg')
  })
})

/** A folder with programs that only say their version, and refuse the option that old builds do not know. */
function fakes(old = false): string {
  const folder = clips.path(old ? 'old-bin' : 'bin')
  mkdirSync(folder, { recursive: true })
  for (const name of ['ffmpeg', 'ffprobe']) {
    const refuse = old ? '[ "$3" = -fps_mode ] && exit 1\n' : ''
    writeFileSync(`${folder}/${name}`, `#!/bin/sh\n${refuse}echo "${name} version 99.1 Copyright"\n`, {
      mode: 0o755,
    })
  }
  return folder
}
