import { escaped } from './escaped.ts'
import type { Scene, Shape } from './scene.ts'

/** What `font-family` every text of a picture asks for. */
export const fontFamily = 'Atkinson Hyperlegible Next'

/**
 * A scene as SVG 1.1: no script, no link, nothing that is fetched. The same scene gives the same bytes.
 *
 * @param fontFace CSS that brings the font along; without it the reader's machine has it or takes its own
 * @param idsBegin what names inside begin with: two pictures in one page must not share them
 */
export function svgOf(
  { widthPx, heightPx, title, paper, shapes }: Scene,
  { fontFace = '', idsBegin = 'inside' }: { fontFace?: string; idsBegin?: string } = {},
): string {
  const clips: Clips = { idsBegin, made: [] }
  const behind: Shape[] =
    paper === null ? [] : [{ kind: 'rect', x: 0, y: 0, width: widthPx, height: heightPx, fill: paper }]
  const drawn = [...behind, ...shapes].map(shape => element(shape, clips)).join('')
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(widthPx)}" height="${n(heightPx)}" ` +
    `viewBox="0 0 ${n(widthPx)} ${n(heightPx)}" role="img" font-family="'${fontFamily}', sans-serif">` +
    `<title>${escaped(title)}</title>${fontFace && `<style>${fontFace}</style>`}` +
    `${clips.made.length > 0 ? `<defs>${clips.made.join('')}</defs>` : ''}${drawn}</svg>\n`
  )
}

/** Clip paths as they are made: an inner one may be ready before its outer one. */
type Clips = { idsBegin: string; made: string[] }

function element(shape: Shape, clips: Clips): string {
  switch (shape.kind) {
    case 'line':
      return `<line${xy({ x1: shape.x1, y1: shape.y1, x2: shape.x2, y2: shape.y2 })}${painted(shape)}/>`
    case 'rect':
      return `<rect${box(shape)}${painted(shape)}/>`
    case 'circle':
      return `<circle${xy({ cx: shape.x, cy: shape.y, r: shape.r })}${painted(shape)}/>`
    case 'path':
      return `<path d="${escaped(shape.d)}"${painted(shape)}/>`
    case 'text':
      return text(shape)
    case 'image':
      return `<image${box(shape)} href="data:image/png;base64,${escaped(shape.pngBase64)}"/>`
    case 'inside': {
      const at = clips.made.push('') - 1
      const id = `${clips.idsBegin}-${at + 1}`
      const within = shape.shapes.map(one => element(one, clips)).join('')
      clips.made[at] = `<clipPath id="${id}"><rect${box(shape)}/></clipPath>`
      return `<g clip-path="url(#${id})">${within}</g>`
    }
  }
}

function text({ x, y, sizePx, fill, anchor, bold, upright, halo, ...shape }: Shape & { kind: 'text' }) {
  const place = upright ? ` transform="translate(${n(x)} ${n(y)}) rotate(-90)"` : xy({ x, y })
  return (
    `<text${place} font-size="${n(sizePx)}" fill="${escaped(fill)}"` +
    `${anchor && anchor !== 'start' ? ` text-anchor="${anchor}"` : ''}${bold ? ' font-weight="600"' : ''}` +
    `${halo ? ` stroke="${escaped(halo)}" stroke-width="${n(sizePx / 4)}" stroke-linejoin="round" paint-order="stroke"` : ''}` +
    `>${escaped(shape.text)}</text>`
  )
}

type Paint = { fill?: string; opacity?: number; stroke?: string; strokePx?: number; dash?: readonly number[] }
const painted = ({ fill, opacity, stroke, strokePx = 1, dash }: Paint): string =>
  ` fill="${escaped(fill ?? 'none')}"${opacity === undefined ? '' : ` fill-opacity="${n(opacity)}"`}` +
  `${stroke ? ` stroke="${escaped(stroke)}" stroke-width="${n(strokePx)}"` : ''}` +
  `${dash ? ` stroke-dasharray="${dash.map(n).join(' ')}"` : ''}`

const xy = (values: Record<string, number>): string =>
  Object.entries(values)
    .map(([name, value]) => ` ${name}="${n(value)}"`)
    .join('')
type Box = { x: number; y: number; width: number; height: number }
const box = ({ x, y, width, height }: Box) => xy({ x, y, width, height })

/** Hundredths of a pixel are enough, and short. Adding 0 makes a minus zero a plain one. */
const n = (value: number): string => String(Math.round(value * 100) / 100 + 0)
