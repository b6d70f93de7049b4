import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import installer from '@ffmpeg-installer/ffmpeg'
import { clipSchema } from '../../../core/contract/clip.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { seededRandom } from '../../../core/numerics/seeded-random.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { Media } from '../../../electron/media/media.ts'
import { places } from '../../../electron/service/places.ts'
import { childrenPeakMegabytes } from './children.ts'
import { mutations } from './mutate.ts'
import { withinWork } from './within-work.ts'

export type SpoiledFigures = {
  copies: number
  /** Copies that could still be opened and shown. */
  opened: number
  /** Processor time of the clip that took the most, host and decoders together. */
  mostProcessorSeconds: number
  hostMegabytesGrown: number
  largestProgramMegabytes: number
  /** What went wrong, each with the seed of its copy. */
  faults: string[]
  /** How often each way of refusing was met. */
  refusals: Record<string, number>
}

/** Of the first 2000 copies of seed 1 none took more than 0.34 s of processor time; thirty times that is a fault. */
const limits = { processorSeconds: 10, idleSeconds: 200, hostMegabytes: 700, programMegabytes: 1500 }

/**
 * Opens, counts and shows so many spoiled copies of the samples, one after the other; the n-th is made by the
 * seed + n alone, so that a run can be gone on with, and one copy be had again. Each must end, within its limits
 * of work, in a whole `whorl.clip/1` or in a problem with a name, with nothing written. Throws when the host or a
 * decoder grew too large.
 */
export async function openSpoiledClips(
  count: number,
  seed: number,
  say: (line: string) => void = () => {},
): Promise<SpoiledFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'whorl-spoiled-'))
  const media = createMedia({ budgetBytes: 32 << 20, programs: 'packages' })
  const figures: SpoiledFigures = {
    copies: 0,
    opened: 0,
    mostProcessorSeconds: 0,
    hostMegabytesGrown: 0,
    largestProgramMegabytes: 0,
    faults: [],
    refusals: {},
  }
  const clips = sound(folder)
  const before = process.memoryUsage().rss
  const peak = childrenPeakMegabytes()
  try {
    for (let own = seed; own < seed + count; own++) {
      await openOne(media, folder, clips[own % clips.length]!, own, figures).catch(fault => {
        figures.faults.push(String(fault.message))
        say(figures.faults.at(-1)!)
      })
      if ((own + 1 - seed) % 100 === 0)
        say(`${own + 1 - seed} of ${count} copies, up to seed ${own}: ${figures.faults.length} faults`)
    }
    figures.hostMegabytesGrown = Math.round((process.memoryUsage().rss - before) / 1e6)
    figures.largestProgramMegabytes = Math.round(peak.stop())
    assert.ok(figures.hostMegabytesGrown < limits.hostMegabytes, 'the host grew too large')
    assert.ok(figures.largestProgramMegabytes < limits.programMegabytes, 'a decoder grew too large')
    return figures
  } finally {
    peak.stop()
    await media.close()
    rmSync(folder, { recursive: true })
  }
}

/** The first pictures of some samples, and the same in other containers: spoiled, they are decoded thousands of times. */
function sound(folder: string): { name: string; bytes: Buffer }[] {
  const samples = ['fast-240-a.mp4', 'phone-240.mov', 'dropped-240.mp4', 'slowmo-30.mp4']
  const short = [...samples, 'fast-240-b.mkv', 'topspin-240-a.avi', 'topspin-240-b.ts'].map(name => {
    const from = join(places.samples, name.replace(/(mkv|avi|ts)$/, 'mp4'))
    const to = join(folder, `sound ${name}`)
    execFileSync(installer.path, ['-v', 'error', '-i', from, '-c', 'copy', '-frames:v', '8', to])
    return { name, bytes: readFileSync(to) }
  })
  return short
}

async function openOne(
  media: Media,
  folder: string,
  clip: { name: string; bytes: Buffer },
  seed: number,
  figures: SpoiledFigures,
): Promise<void> {
  const random = seededRandom(seed)
  const mutation = mutations[Math.floor(random() * mutations.length)]!
  const own = join(folder, String(seed))
  mkdirSync(own)
  const path = join(own, clip.name)
  const bytes = Buffer.from(mutation.spoil(Buffer.from(clip.bytes), random))
  writeFileSync(path, bytes)
  const opening = open(media, path).catch(error => (error instanceof WhorlError ? error.code : error))
  const { outcome, processorSeconds } = await withinWork(opening, limits)
  const about = `${clip.name}, ${mutation.name}, seed ${seed}`
  assert.equal(typeof outcome, 'string', `${about}: ${(outcome as Error).stack}`)
  const isBounded = processorSeconds < limits.processorSeconds && outcome !== 'hangs'
  assert.ok(isBounded, `${about}: ${outcome} after ${processorSeconds.toFixed(0)} s of processor time`)
  assert.ok(outcome !== 'internal' && outcome !== 'cancelled', `${about}: ${outcome}`)
  assert.deepEqual(readdirSync(own), [clip.name], `${about}: something was written`)
  assert.ok(readFileSync(path).equals(bytes), `${about}: the clip was changed`)
  rmSync(own, { recursive: true })
  figures.copies++
  figures.mostProcessorSeconds = Math.max(figures.mostProcessorSeconds, processorSeconds)
  if (outcome === 'opened') figures.opened++
  else figures.refusals[outcome as string] = (figures.refusals[outcome as string] ?? 0) + 1
}

async function open(media: Media, path: string): Promise<'opened'> {
  const clip = clipSchema.parse(await media.probe(path))
  const times = await media.timestamps(path)
  assert.ok(times.every(Number.isFinite), 'a time that is no number')
  const picture = await media.frame(path, Math.min(clip.frames, times.length) - 1)
  assert.equal(picture.data.length, (picture.widthPx * picture.heightPx * 3) / 2)
  picture.done?.()
  return 'opened'
}
