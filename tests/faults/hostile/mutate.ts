import type { Random } from '../../../core/numerics/seeded-random.ts'

/** A way of spoiling the bytes of a clip; the same numbers spoil it in the same way. */
export type Mutation = { name: string; spoil: (bytes: Buffer, random: Random) => Buffer }

const below = (random: Random, n: number) => Math.floor(random() * n)
const pick = <T>(random: Random, from: readonly T[]): T => from[below(random, from.length)]!
const absurd = [0, 1, 7, 0x7fff_ffff, 0x8000_0000, 0xffff_ffff] as const

type Box = { at: number; size: number; kind: string }

/** The boxes of an MP4 or MOV that lie side by side from `at` to `end` (ISO 14496-12, 4.2). */
function boxesIn(bytes: Buffer, at = 0, end = bytes.length): Box[] {
  const boxes: Box[] = []
  while (at + 8 <= end) {
    const size = bytes.readUInt32BE(at)
    if (size < 8 || at + size > end) break
    boxes.push({ at, size, kind: bytes.toString('latin1', at + 4, at + 8) })
    at += size
  }
  return boxes
}

/** Where boxes of these kinds begin, wherever they lie. */
function placesOf(bytes: Buffer, kinds: readonly string[]): number[] {
  return kinds.flatMap(kind => {
    const places: number[] = []
    for (let at = bytes.indexOf(kind, 4, 'latin1'); at > 0; at = bytes.indexOf(kind, at + 4, 'latin1'))
      places.push(at - 4)
    return places
  })
}

/** Writes a number at an offset behind the start of one of the boxes, where it fits. */
function write32(
  bytes: Buffer,
  random: Random,
  kinds: string[],
  offsets: number[],
  values: readonly number[],
) {
  const places = placesOf(bytes, kinds)
  if (places.length === 0) return bytes
  const at = pick(random, places) + pick(random, offsets)
  if (at + 4 <= bytes.length) bytes.writeUInt32BE(pick(random, values), at)
  return bytes
}

const swapped = (bytes: Buffer, random: Random, boxes: Box[]) => {
  const [a, b] = [pick(random, boxes), pick(random, boxes)]
  const [first, second] = a.at < b.at ? [a, b] : [b, a]
  const piece = ({ at, size }: Box) => bytes.subarray(at, at + size)
  return Buffer.concat([
    bytes.subarray(0, first.at),
    piece(second),
    bytes.subarray(first.at + first.size, second.at),
    ...(first === second ? [] : [piece(first)]),
    bytes.subarray(second.at + second.size),
  ])
}

export const mutations: readonly Mutation[] = [
  {
    name: 'bits flipped',
    spoil: (bytes, random) => {
      for (let n = 1 + below(random, 64); n > 0; n--)
        bytes[below(random, bytes.length)]! ^= 1 << below(random, 8)
      return bytes
    },
  },
  {
    name: 'bits of the tables flipped',
    spoil: (bytes, random) => {
      const moov = placesOf(bytes, ['moov'])[0] ?? 0
      const size = Math.min(4096, bytes.length - moov)
      for (let n = 1 + below(random, 16); n > 0; n--)
        bytes[moov + below(random, size)]! ^= 1 << below(random, 8)
      return bytes
    },
  },
  { name: 'cut off', spoil: (bytes, random) => bytes.subarray(0, 1 + below(random, bytes.length - 1)) },
  {
    name: 'boxes swapped',
    spoil: (bytes, random) => {
      const outer = boxesIn(bytes)
      const moov = outer.find(box => box.kind === 'moov')
      const inner = moov ? boxesIn(bytes, moov.at + 8, moov.at + moov.size) : []
      const boxes = random() < 0.5 || inner.length < 2 ? outer : inner
      return boxes.length < 2 ? bytes.subarray(bytes.length >> 1) : swapped(bytes, random, boxes)
    },
  },
  {
    name: 'a box that lies about its size',
    spoil: (bytes, random) =>
      write32(
        bytes,
        random,
        ['moov', 'trak', 'mdia', 'minf', 'stbl', 'stsd', 'stts', 'stsz', 'stsc', 'mdat'],
        [0],
        absurd,
      ),
  },
  {
    name: 'huge dimensions',
    spoil: (bytes, random) => {
      const sizes = [0xffff_ffff, 0x7fff_7fff, 0xffff_0001, 0x4000_4000, 0, 0x0001_0001]
      write32(bytes, random, ['avc1', 'hvc1', 'hev1'], [32], sizes)
      return write32(bytes, random, ['tkhd'], [84, 88], sizes)
    },
  },
  {
    name: 'absurd timescales',
    spoil: (bytes, random) => {
      write32(bytes, random, ['mdhd', 'mvhd'], [20], absurd)
      return write32(bytes, random, ['stts'], [16, 20], absurd)
    },
  },
  {
    name: 'absurd counts, none among them',
    spoil: (bytes, random) =>
      write32(bytes, random, ['stsz', 'stts', 'stsc', 'stco', 'ctts', 'elst'], [12, 16, 20], absurd),
  },
  {
    name: 'a stretch of another value',
    spoil: (bytes, random) => {
      const from = below(random, bytes.length)
      return bytes.fill(pick(random, [0, 0xff, 0x47]), from, from + below(random, bytes.length - from))
    },
  },
  {
    name: 'a stretch twice',
    spoil: (bytes, random) => {
      const from = below(random, bytes.length)
      const to = from + below(random, bytes.length - from)
      return Buffer.concat([bytes.subarray(0, to), bytes.subarray(from)])
    },
  },
]
