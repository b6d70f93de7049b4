const secondsIn: Record<string, number> = { '': 1, s: 1, ms: 1e-3, us: 1e-6, µs: 1e-6, μs: 1e-6 }

/**
 * Seconds that a person wrote as `1/2000`, `0.5ms` or `0.0005`; null for anything else and for 0 or less.
 *
 * @example secondsOfText('1/2000') // 0.0005
 */
export function secondsOfText(text: string): number | null {
  const [, over, under, figure, unit = ''] =
    /^\s*(?:(\d*\.?\d+)\s*\/\s*(\d*\.?\d+)\s*s?|(\d*\.?\d+(?:e[+-]?\d+)?)\s*(s|ms|us|µs|μs|))\s*$/i.exec(
      text,
    ) ?? []
  const seconds =
    over === undefined
      ? Number(figure) * (secondsIn[unit.toLowerCase()] ?? Number.NaN)
      : Number(over) / Number(under)
  return Number.isFinite(seconds) && seconds > 0 ? seconds : null
}

/**
 * A short time as a camera shows it: `1/2000` where it is one over a whole number, else milliseconds.
 *
 * @example textOfSeconds(0.0005) // '1/2000\u00a0s'
 */
export function textOfSeconds(seconds: number): string {
  const under = Math.round(1 / seconds)
  if (under > 1 && Math.abs(seconds * under - 1) < 1e-6) return `1/${under}\u00a0s`
  return `${Number((seconds * 1000).toPrecision(4))}\u00a0ms`
}
