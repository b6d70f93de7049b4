import { execFileSync } from 'node:child_process'
import { chmodSync, mkdirSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { ProblemCode } from '../../../core/contract/problem.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import { openArguments } from '../../../electron/media/guard.ts'
import { builds, toolsOf } from './builds.ts'
import { Clips, h264, hashOf } from './clips.ts'
import { withExternalMedia } from './external-media.ts'

const clips = new Clips()
afterAll(() => clips.remove())

const text = (name: string, words: string) => {
  writeFileSync(clips.path(name), words)
  return clips.path(name)
}
const good = () => clips.film('good.mp4', h264('-movflags', '+faststart'))
const media = createMedia({ programs: 'packages' })
afterAll(() => media.close())

const refusal = async (path: string): Promise<string> => {
  const opened = [media.probe(path), media.timestamps(path), media.frame(path, 0)]
  const codes = await Promise.all(
    opened.map(call =>
      call.then(
        () => 'opened',
        error => error.code ?? String(error),
      ),
    ),
  )
  expect(new Set(codes).size).toBe(1)
  return codes[0]!
}

const refused: [string, ProblemCode, () => string][] = [
  ['a file that is not there', 'file-not-found', () => clips.path('nowhere.mp4')],
  ['a name with a null character', 'file-not-found', () => `${clips.path('a')}\0.mp4`],
  ['a folder', 'file-is-folder', () => clips.folder],
  ['a named pipe', 'file-unreadable', () => pipe('pipe.mp4')],
  ['an empty file', 'clip-empty', () => text('empty.mp4', '')],
  ['a text file', 'clip-not-video', () => text('notes.mp4', 'Serve 14, second set.\nLooked fast.\n')],
  ['a picture', 'clip-not-video', () => clips.film('still.png', ['-frames:v', '1'])],
  [
    'sound alone',
    'clip-not-video',
    () => clips.make('sound.m4a', '-f', 'lavfi', '-i', 'sine=d=0.2', '-c:a', 'aac'),
  ],
  ['a picture of one pixel', 'clip-too-small', () => clips.film('dot.mkv', ['-c:v', 'ffv1'], ['scale=1:1'])],
  [
    'a clip without its table of frames',
    'clip-no-frames',
    () => cut(clips.film('late.mp4', h264()), 0.6, 'cut.mp4'),
  ],
  [
    'a header and nothing behind it',
    'clip-no-frames',
    () => cut(clips.film('late.mp4', h264()), 0.002, 'head.mp4'),
  ],
  ['random bytes', 'clip-not-video', () => clips.copy(good(), 'noise.mp4', bytes => bytes.subarray(3000))],
]

describe('refuses, with the reason', () => {
  test.each(refused)('%s: %s', async (_, code, path) => {
    expect(await refusal(path())).toBe(code)
  })

  test('a file that may not be read', async () => {
    const path = clips.rename(good(), 'locked.mp4')
    chmodSync(clips.folder, 0o755)
    chmodSync(path, 0)
    const isRoot = process.geteuid?.() === 0
    if (isRoot) process.seteuid?.(65534)
    try {
      await expect(media.probe(path)).rejects.toMatchObject({
        code: 'file-unreadable',
        message: expect.stringContaining('permission denied'),
      })
    } finally {
      if (isRoot) process.seteuid?.(0)
    }
  })
})

const cut = (path: string, part: number, name: string) =>
  clips.copy(path, name, bytes => bytes.subarray(0, Math.round(bytes.length * part)))

function pipe(name: string): string {
  execFileSync('mkfifo', [clips.path(name)])
  return clips.path(name)
}

describe('refuses lists before anything they name is opened', () => {
  let server: Server
  let asked = 0
  let address = ''
  beforeAll(async () => {
    server = createServer((_, response) => {
      asked++
      response.end()
    })
    await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve))
    address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/clip.ts`
  })
  afterAll(() => server.close())

  const lists: [string, (target: string) => string][] = [
    ['an HTTP live stream', t => `#EXTM3U\n#EXT-X-TARGETDURATION:1\n#EXTINF:1,\n${t}\n#EXT-X-ENDLIST\n`],
    ['the same behind a byte order mark', t => `\uFEFF#EXTM3U\n${t}\n`],
    ['a concat script', t => `ffconcat version 1.0\nfile '${t}'\n`],
    ['a concat script without its first line', t => `# cuts\nfile '${t}'\n`],
    [
      'a session description',
      t => `v=0\no=- 0 0 IN IP4 127.0.0.1\ns=x\nc=IN IP4 127.0.0.1\nm=video 5004 RTP/AVP 96\na=x:${t}\n`,
    ],
    ['a DASH manifest', t => `<?xml version="1.0"?>\n<MPD><BaseURL>${t}</BaseURL></MPD>\n`],
    ['an ASX list', t => `<asx version="3.0"><entry><ref href="${t}"/></entry></asx>\n`],
    ['a PLS list', t => `[playlist]\nFile1=${t}\n`],
    ['an XSPF list', t => `<?xml version="1.0"?><playlist version="1"><location>${t}</location></playlist>`],
    ['a bare address', t => (t.startsWith('http') ? `${t}\n` : `file://${t}\n`)],
    ['a QuickTime text link', t => `RTSPtext\n${t}\n`],
  ]
  test.each(lists)('%s', async (_, list) => {
    // Whatever a list calls itself, its content decides.
    for (const [i, target] of [address, clips.film('good.mp4', h264())].entries())
      expect(await refusal(text(`list-${i}.mp4`, list(target)))).toBe('clip-points-elsewhere')
    expect(asked).toBe(0)
  })

  test('a movie whose pictures lie in another file', async () => {
    const path = clips.copy(good(), 'reference.mov', bytes =>
      withExternalMedia(bytes, clips.path('good.mp4')),
    )
    expect(await refusal(path)).toBe('clip-points-elsewhere')
  })

  test.each(builds)(
    'and the %s ffmpeg would not follow one: only local files are let through',
    async programs => {
      const { ffmpeg } = await toolsOf(programs)
      const path = text(
        'followed.m3u8',
        `#EXTM3U\n#EXT-X-TARGETDURATION:1\n#EXTINF:1,\n${address}\n#EXT-X-ENDLIST\n`,
      )
      const file = { path, bytes: 1, demuxer: 'hls', key: '' }
      const words = ['-v', 'error', ...openArguments(file), '-i', `file:${path}`, '-f', 'null', '-']
      expect(() => execFileSync(ffmpeg.path, words, { stdio: 'pipe' })).toThrow(/whitelist/i)
      expect(asked).toBe(0)
    },
  )
})

describe('opens clips by any name', () => {
  const names = [
    'two words.mp4',
    `it's "quoted".mp4`,
    'line\nbreak.mp4',
    'bälle 🎾.mp4',
    '-i.mp4',
    'shot%03d.mp4',
    'file:shot.mp4',
    'concat:a|b.mp4',
    'no-ending',
    'wrong.txt',
    '$(touch gone);&.mp4',
    '[0-9]*?.mp4',
  ]
  test.each(builds)('with the programs of %s', async programs => {
    const media = createMedia({ programs })
    const here = process.cwd()
    const before = hashOf((await media.frame(good(), 3)).data)
    process.chdir(clips.folder)
    try {
      for (const name of names) {
        clips.rename(good(), name)
        expect([name, (await media.timestamps(name)).length]).toEqual([name, 60])
        expect([name, hashOf((await media.frame(name, 3)).data)]).toEqual([name, before])
      }
      const clip = await media.probe('-i.mp4')
      expect([clip.path, clip.frames]).toEqual([clips.path('-i.mp4'), 60])
    } finally {
      process.chdir(here)
      await media.close()
    }
  })

  test('inside a folder with an odd name', async () => {
    mkdirSync(clips.path('a: %d\'s "x"'))
    const path = clips.rename(good(), `a: %d's "x"/-y.mp4`)
    expect((await media.probe(path)).frames).toBe(60)
  })
})

describe('refuses frames and windows that are not there', () => {
  test('a window that holds no frame', async () => {
    const window = { fromFrame: 9, toFrame: 8 }
    await expect(media.prepare(good(), window)).rejects.toMatchObject({ code: 'window-empty' })
    await expect(media.lumaWindow(good(), window)[Symbol.asyncIterator]().next()).rejects.toMatchObject({
      code: 'window-empty',
    })
  })

  test.each([-1, 60, 1.5, Number.NaN])('frame %d of 60', async frame => {
    await expect(media.frame(good(), frame)).rejects.toMatchObject({ code: 'frame-outside-clip' })
  })

  test('a window that reaches beyond the end', async () => {
    const window = { fromFrame: 50, toFrame: 60 }
    await expect(media.prepare(good(), window)).rejects.toMatchObject({ code: 'frame-outside-clip' })
  })

  test('a part of the picture that reaches outside it', async () => {
    const crop = { xPx: 100, yPx: 0, widthPx: 61, heightPx: 10 }
    const frames = media.lumaWindow(good(), { fromFrame: 0, toFrame: 1 }, { crop })[Symbol.asyncIterator]()
    await expect(frames.next()).rejects.toMatchObject({ code: 'bad-payload' })
  })
})
