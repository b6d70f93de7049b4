import type { Flag } from '../contract/reading.ts'
import type { Palette } from './look.ts'
import type { Shape } from './scene.ts'

export const flagWords: Record<Flag, string> = {
  clear: 'clear',
  'near-ceiling': 'near ceiling',
  ambiguous: 'ambiguous',
  'too-few-frames': 'too few frames',
}

/** A flag's own shape in a square of `sizePx` whose middle is given; the same shapes as in the app. */
export function flagShape(flag: Flag, x: number, y: number, sizePx: number, palette: Palette): Shape[] {
  const u = sizePx / 16
  const fill = palette.flags[flag]
  const at = (dx: number, dy: number) => `${(x + dx * u).toFixed(2)} ${(y + dy * u).toFixed(2)}`
  const r = (5.5 * u).toFixed(2)
  switch (flag) {
    case 'clear':
      return [{ kind: 'circle', x, y, r: 5.5 * u, fill }]
    case 'near-ceiling':
      return [
        { kind: 'rect', x: x - 6 * u, y: y - 5.75 * u, width: 12 * u, height: 2 * u, fill },
        { kind: 'path', d: `M${at(0, -2.25)}L${at(6, 6.25)}L${at(-6, 6.25)}Z`, fill },
      ]
    case 'ambiguous':
      return [
        { kind: 'path', d: `M${at(-1.25, -5.5)}A${r} ${r} 0 0 0 ${at(-1.25, 5.5)}Z`, fill },
        { kind: 'path', d: `M${at(1.25, -5.5)}A${r} ${r} 0 0 1 ${at(1.25, 5.5)}Z`, fill },
      ]
    case 'too-few-frames': {
      const side = 10 * u
      return [
        {
          kind: 'rect',
          x: x - side / 2,
          y: y - side / 2,
          width: side,
          height: side,
          stroke: fill,
          strokePx: 1.75 * u,
        },
      ]
    }
  }
}
