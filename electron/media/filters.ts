import type { Header } from './header.ts'
import type { Crop } from './media.ts'

export type Size = { widthPx: number; heightPx: number }

const even = (n: number) => Math.max(2, 2 * Math.round(n / 2))

/** The size of a picture that may be no wider than `maxWidthPx`: even, its shape kept as well as that allows. */
export function fittedSize({ widthPx, heightPx }: Size, maxWidthPx: number | undefined): Size {
  if (!maxWidthPx || maxWidthPx >= widthPx) return { widthPx, heightPx }
  const width = Math.max(2, maxWidthPx - (maxWidthPx % 2))
  return { widthPx: width, heightPx: even((heightPx * width) / widthPx) }
}

/** Turns the stored picture upright. Done by us, so that old and new ffmpeg do the same. */
const upright: Record<number, string[]> = {
  0: [],
  90: ['transpose=clock'],
  180: ['hflip', 'vflip'],
  270: ['transpose=cclock'],
}

/** The picture as shown: upright, its last odd row and column cut off, square pixels, scaled down to `size`. */
export function pictureFilters(header: Header, size: Size): string[] {
  return [...upright[header.rotationDeg]!, ...toSize(header, size), 'format=yuv420p']
}

/**
 * The brightness alone, 8 bits. The plane is taken out as it was decoded: converting to a grey picture
 * would stretch its range. A whole picture that is scaled down is made grey by that very step, told that both ranges
 * are the same: the same bytes without a copy of the plane.
 */
export function lumaFilters(header: Header, crop: Crop | undefined, size: Size): string[] {
  const planar = /^(yuvj?4[0-4]{2}p|nv12|nv21|gray)$/.test(header.pixelFormat)
  const { widthPx, heightPx, xPx, yPx } = crop ?? { ...header, xPx: 0, yPx: 0 }
  const isScaled = size.widthPx !== widthPx || size.heightPx !== heightPx
  const shown = [
    ...upright[header.rotationDeg]!,
    ...(planar ? [] : ['format=yuv420p']),
    ...toSize(header, header),
  ]
  if (isScaled && !crop) return [...shown, `${scale(size)}:in_range=pc:out_range=pc`, 'format=gray']
  return [
    ...shown,
    'extractplanes=y',
    ...(crop ? [`crop=${widthPx}:${heightPx}:${xPx}:${yPx}`] : []),
    ...(isScaled ? [scale(size)] : []),
  ]
}

const scale = ({ widthPx, heightPx }: Size) => `scale=${widthPx}:${heightPx}:flags=area`

function toSize(header: Header, size: Size): string[] {
  const cut = header.squareStored && header.oddStored ? [`crop=${header.widthPx}:${header.heightPx}:0:0`] : []
  const isSize = header.squareStored && size.widthPx === header.widthPx && size.heightPx === header.heightPx
  return isSize ? cut : [...cut, scale(size)]
}
