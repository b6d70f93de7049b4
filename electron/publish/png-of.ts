import { Resvg } from '@resvg/resvg-js'
import type { Scene, Shape } from '../../core/picture/scene.ts'
import { fontFamily, svgOf } from '../../core/picture/svg-of.ts'
import { fontFiles } from './fonts.ts'

/** A scene as PNG, one pixel a px. The system's fonts are left out: every machine draws the same picture. */
export const pngOf = (scene: Scene): Uint8Array => rendered(scene).asPng()

/** A scene as RGBA, rows unpadded, colours multiplied by their opacity. */
export const rgbaOf = (scene: Scene): Uint8Array => rendered(scene).pixels

const rendered = (scene: Scene) =>
  new Resvg(svgOf(scene), {
    font: { fontFiles: fontsFor(scene), loadSystemFonts: false, defaultFontFamily: fontFamily },
  }).render()

/** Fonts are read anew for each picture: only those whose letters it holds. */
function fontsFor({ shapes }: Scene): string[] {
  const texts = textsIn(shapes)
  if (texts.length === 0) return []
  return texts.every(text => /^[ -\u024f\u2000-\u206f\u2212…]*$/.test(text))
    ? fontFiles.slice(0, 2)
    : [...fontFiles]
}

const textsIn = (shapes: readonly Shape[]): string[] =>
  shapes.flatMap(shape =>
    shape.kind === 'text' ? [shape.text] : shape.kind === 'inside' ? textsIn(shape.shapes) : [],
  )
