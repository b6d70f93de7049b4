import { z } from 'zod'
import { WhorlError } from '../../core/contract/problem.ts'
import type { Children } from './children.ts'
import { type Collected, collect } from './collect.ts'
import { type GuardedFile, guard, inputArguments } from './guard.ts'
import { type Header, headerSchema, readHeader } from './header.ts'
import { decodedPts } from './labels.ts'
import type { JobOptions } from './media.ts'
import type { Tools } from './programs.ts'
import { throttled } from './throttled.ts'

/** A clip's frames by their times: frame n is shown at `pts[n]` ticks of the time base. */
export type ClipIndex = {
  file: GuardedFile
  header: Header
  pts: number[]
  /** Ticks of the pictures at which decoding can begin, rising. */
  keys: number[]
  /** Pictures the container holds, those cut away by an edit list among them. */
  packets: number
  /** Of the pictures that lean on others, and how many they are. */
  leaning: { bytes: number; pictures: number }
  /** Pictures that an edit list cuts away. */
  hidden: number
  /** What ffprobe complained about. */
  complaint: string
}

const listSchema = headerSchema.extend({
  packets: z
    .array(
      z.object({
        stream_index: z.number(),
        pts: z.number().optional(),
        size: z.coerce.number().default(0),
        flags: z.string(),
      }),
    )
    .default([]),
})
type Packet = z.infer<typeof listSchema>['packets'][number]

/**
 * Lists a clip's frames without decoding it: the packets' times in rising order, less those that an edit list
 * cuts away (flag D). Only where the packets do not tell (no times; a clip cut between key pictures) are the
 * times taken from decoding.
 */
export async function readIndex(
  children: Children,
  tools: Tools,
  path: string,
  { signal, progress }: JobOptions = {},
): Promise<ClipIndex> {
  const what = 'Reading the frame times'
  const file = await guard(path)
  const report = throttled(progress)
  const list = await collect(children, tools.ffprobe.path, listArguments(file), {
    signal,
    onBytes: done => report({ what, done: Math.min(done, file.bytes), total: null }),
  })
  children.check(signal, what)
  if (/Skipped opening external track/i.test(list.complaint))
    throw new WhorlError('clip-points-elsewhere', { path })
  const answer = listSchema.safeParse(list.ok ? parseJson(list.text) : null)
  if (!answer.success) throw unreadable(path, list)

  const header = readHeader(path, answer.data)
  const packets = answer.data.packets.filter(p => p.stream_index === header.stream)
  if (packets.length === 0) throw new WhorlError('clip-no-frames', { path })
  const index = {
    file,
    header,
    packets: packets.length,
    hidden: hiddenIn(packets),
    leaning: leaningIn(packets),
    complaint: list.complaint,
  }
  const pts = shownPts(packets)
  if (pts && !beginsBeforeKey(packets, pts)) return { ...index, pts, keys: keysOf(packets) }

  const decoded = await decodedPts(children, tools, file, header, { signal, firstOnly: pts !== null })
  children.check(signal, what)
  const first = decoded[0]
  if (first === undefined) throw new WhorlError('clip-no-frames', { path })
  if (pts) return { ...index, pts: pts.filter(p => p >= first), keys: keysOf(packets) }
  return { ...index, pts: decoded, keys: [] }
}

/** The time of frame n in seconds. */
export const secondsOf = ({ pts, header: { timeBase } }: ClipIndex): number[] =>
  pts.map(p => (p * timeBase.num) / timeBase.den)

const listArguments = (file: GuardedFile): string[] => [
  ...['-loglevel', 'warning', '-select_streams', 'v', '-of', 'json=c=1'],
  ...['-show_entries', 'packet=stream_index,pts,size,flags:stream:format'],
  ...inputArguments(file),
]

const rising = (values: number[]) => values.sort((a, b) => a - b)

const hiddenIn = (packets: Packet[]) => packets.filter(p => p.flags.includes('D')).length

function leaningIn(packets: Packet[]) {
  const leaning = packets.filter(p => !p.flags.includes('K'))
  return { bytes: leaning.reduce((sum, p) => sum + p.size, 0), pictures: leaning.length }
}

/** The times of the pictures that are shown, or null when some have none. */
function shownPts(packets: Packet[]): number[] | null {
  const pts = packets.filter(p => !p.flags.includes('D')).map(p => p.pts)
  return pts.every(p => p !== undefined) ? rising(pts) : null
}

function keysOf(packets: Packet[]): number[] {
  return rising(packets.flatMap(p => (p.flags.includes('K') && p.pts !== undefined ? [p.pts] : [])))
}

/** A clip cut without re-encoding can begin with pictures that lean on ones before the cut: they may be lost. */
function beginsBeforeKey(packets: Packet[], pts: number[]): boolean {
  const firstKey = packets.find(p => p.flags.includes('K'))?.pts
  return firstKey === undefined || (pts[0] ?? 0) < firstKey
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

function unreadable(path: string, { broke, complaint }: Collected): WhorlError {
  if (broke) return new WhorlError('ffmpeg-failed', { path, what: complaint })
  if (/moov atom not found|End of file|EBML header parsing failed/i.test(complaint))
    return new WhorlError('clip-no-frames', { path })
  return new WhorlError('clip-not-video', { path, what: complaint || 'ffprobe gave no list of its frames' })
}
