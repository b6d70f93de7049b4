import './hit-dots.css'
import type { Band } from '../../core/contract/reading.ts'
import { linesOf, percentOn, type RpmScale } from './rpm-scale.ts'
import { stacked } from './stacked.ts'

type HitDotsProps = {
  /** Rates of the hits in the mean, in order; those left out are hollow. */
  dots: readonly number[]
  leftOut?: readonly number[]
  meanRpm: number | null
  band: Band | null
  scale: RpmScale
  heightPx?: number
  lines?: boolean
}

const radiusPx = 2.5
const bandPx = 7
/** A dot's width as a share of the scale, for a plot of some 300 px. */
const dotShare = 1 / 60

/** Hits as dots on the common scale, one on another where they would meet; beneath them the mean's band. */
export function HitDots({
  dots,
  leftOut = [],
  meanRpm,
  band,
  scale,
  heightPx = 40,
  lines = true,
}: HitDotsProps) {
  const at = (rpm: number) => `${percentOn(scale, rpm)}%`
  const ground = heightPx - bandPx - radiusPx - 2
  const apart = (scale.toRpm - scale.fromRpm) * dotShare
  const drawn = stacked(dots, apart)
  const highest = Math.max(1, ...drawn.map(dot => dot.level))
  const step = Math.min(2 * radiusPx + 0.5, (ground - radiusPx) / highest)
  const y = (level: number) => ground - level * step
  return (
    <svg className="hit-dots" width="100%" height={heightPx} aria-hidden="true">
      {lines &&
        linesOf(scale).map(rpm => (
          <line key={rpm} className="hit-dots-line" x1={at(rpm)} x2={at(rpm)} y1="0" y2={heightPx} />
        ))}
      {leftOut.map((rpm, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a dot is nothing but its place.
        <circle key={i} className="hit-dots-out" cx={at(rpm)} cy={ground} r={radiusPx} />
      ))}
      {drawn.map(({ rpm, level }, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: as above.
        <circle key={i} className="hit-dots-hit" cx={at(rpm)} cy={y(level)} r={radiusPx} />
      ))}
      {band && (
        <line
          className="hit-dots-band"
          x1={at(band.lowRpm)}
          x2={at(band.highRpm)}
          y1={heightPx - bandPx / 2}
          y2={heightPx - bandPx / 2}
        />
      )}
      {meanRpm !== null && (
        <line
          className="hit-dots-mean"
          x1={at(meanRpm)}
          x2={at(meanRpm)}
          y1={heightPx - bandPx}
          y2={heightPx}
        />
      )}
    </svg>
  )
}
