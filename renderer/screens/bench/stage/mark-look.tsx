/** Marks are told apart by shape as well as by hue, the same on the dial, the ball and in the plots. */
const hues = ['--orange', '--sky', '--green', '--purple', '--yellow', '--vermilion', '--blue']
const shapes = [
  (r: number) => `M${-r} 0A${r} ${r} 0 1 1 ${r} 0A${r} ${r} 0 1 1 ${-r} 0Z`,
  (r: number) => `M${-r} ${-r}H${r}V${r}H${-r}Z`,
  (r: number) => `M0 ${-1.3 * r}L${1.2 * r} ${0.9 * r}H${-1.2 * r}Z`,
  (r: number) => `M0 ${-1.35 * r}L${1.35 * r} 0L0 ${1.35 * r}L${-1.35 * r} 0Z`,
]

export const markHue = (index: number) => `var(${hues[index % hues.length]})`
const markPath = (index: number, size: number) => shapes[index % shapes.length]!(size)

type MarkGlyphProps = {
  index: number
  x: number
  y: number
  size: number
  hollow?: boolean
  opacity?: number
}

/** One mark's sign at a place of a drawing. */
export function MarkGlyph({ index, x, y, size, hollow = false, opacity = 1 }: MarkGlyphProps) {
  return (
    <path
      d={markPath(index, size)}
      transform={`translate(${x.toFixed(2)} ${y.toFixed(2)})`}
      fill={hollow ? 'none' : markHue(index)}
      stroke={markHue(index)}
      strokeWidth={hollow ? 1.25 : 0}
      opacity={opacity}
    />
  )
}
