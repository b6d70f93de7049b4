import { z } from 'zod'
import { WhorlError } from '../../core/contract/problem.ts'

/** What a container says about its picture; sizes in pixels. Nothing here is trusted for counting. */
export type Header = {
  /** The picture stream's place among all streams of the file. */
  stream: number
  container: string
  codec: string
  pixelFormat: string
  /** As shown: square pixels, after the rotation, even (a last odd row or column is cut off). */
  widthPx: number
  heightPx: number
  /** A turn clockwise by this shows the stored picture upright: 0, 90, 180 or 270. */
  rotationDeg: number
  /** Every picture holds two instants, odd rows and even ones. */
  interlaced: boolean
  /** The stored pixels are square already, and an odd row or column must be cut off. */
  squareStored: boolean
  oddStored: boolean
  timeBase: { num: number; den: number }
  /** Frames that the container claims to hold, when it does. */
  claimedFrames: number | null
  claimedSeconds: number | null
  tags: Record<string, string>
}

const tags = z.record(z.string(), z.coerce.string()).default({})
const streamSchema = z.object({
  index: z.int().min(0),
  codec_name: z.string().default('unknown'),
  pix_fmt: z.string().default('unknown'),
  width: z.int().min(0).default(0),
  height: z.int().min(0).default(0),
  sample_aspect_ratio: z.string().default('1:1'),
  field_order: z.string().default('unknown'),
  time_base: z.string(),
  duration: z.coerce.number().optional(),
  nb_frames: z.coerce.number().optional(),
  disposition: z.record(z.string(), z.number()).default({}),
  tags,
  side_data_list: z.array(z.object({ rotation: z.number().optional() })).default([]),
})
export const headerSchema = z.object({
  streams: z.array(streamSchema).default([]),
  format: z.object({ format_name: z.string(), duration: z.coerce.number().optional(), tags }),
})
type Stream = z.infer<typeof streamSchema>

const leastPx = 16

/**
 * The header of the clip's picture stream: the first that is no cover picture.
 * Throws clip-not-video (no picture stream) or clip-too-small.
 */
export function readHeader(path: string, { streams, format }: z.infer<typeof headerSchema>): Header {
  const stream = streams.find(s => !s.disposition.attached_pic && !s.disposition.timed_thumbnails)
  if (!stream) throw new WhorlError('clip-not-video', { path, what: 'it holds sound but no picture' })
  const rotationDeg = rotationOf(stream)
  const stretch = stretchOf(stream.sample_aspect_ratio)
  const width = Math.round(stream.width * stretch)
  const [widthPx, heightPx] = (rotationDeg % 180 === 0 ? [width, stream.height] : [stream.height, width]).map(
    n => (n < 2 ? n : n - (n % 2)),
  ) as [number, number]
  // ffprobe gives no size where it would be beyond the limits that it was given.
  if (widthPx === 0 || heightPx === 0)
    throw new WhorlError('clip-not-video', {
      path,
      what: 'its picture has no size, or one too large to be decoded',
    })
  if (widthPx < leastPx || heightPx < leastPx)
    throw new WhorlError('clip-too-small', { path, widthPx, heightPx })
  const [num = 0, den = 1] = stream.time_base.split('/').map(Number)
  return {
    stream: stream.index,
    container: format.format_name,
    codec: stream.codec_name,
    pixelFormat: stream.pix_fmt,
    widthPx,
    heightPx,
    rotationDeg,
    interlaced: /^(tt|bb|tb|bt)$/.test(stream.field_order),
    squareStored: stretch === 1,
    oddStored: stream.width % 2 === 1 || stream.height % 2 === 1,
    timeBase: { num, den },
    claimedFrames: stream.nb_frames ?? null,
    claimedSeconds: stream.duration ?? format.duration ?? null,
    tags: { ...format.tags, ...stream.tags },
  }
}

/** ffprobe gives the display matrix' turn counter-clockwise; the tag of old gives it clockwise. */
function rotationOf(stream: Stream): number {
  const turn = stream.side_data_list.find(side => side.rotation !== undefined)?.rotation
  const clockwise = turn !== undefined ? -turn : Number(stream.tags.rotate ?? 0)
  return (((Math.round(clockwise / 90) % 4) + 4) % 4) * 90
}

/** What an old resize left: too little to be worth resampling every picture. */
const nearlySquare = 0.005

/** How much wider than high a stored pixel is. */
function stretchOf(ratio: string): number {
  const [across = 1, down = 1] = ratio.split(':').map(Number)
  const stretch = across > 0 && down > 0 ? across / down : 1
  return Math.abs(stretch - 1) < nearlySquare ? 1 : stretch
}
