import './band-bar.css'
import type { CSSProperties } from 'react'
import type { Band, Flag } from '../../core/contract/reading.ts'
import { percentOn, type RpmScale } from './rpm-scale.ts'

type Spread = Pick<Band, 'lowRpm' | 'highRpm'>
type BandBarProps = {
  rpm: number | null
  band: Spread | null
  scale: RpmScale
  flag?: Flag
  /** Another band of the same hit or paddle, as a hairline: what counting says, what stood there before. */
  beneath?: Spread | null
  /** The scale's lines, so that they run on from row to row. */
  lines?: boolean
}

/** A reading as a thin bar on a common scale. The figures stand beside it as text, so ears need no copy. */
export function BandBar({ rpm, band, scale, flag = 'clear', beneath, lines = false }: BandBarProps) {
  const at = (value: number) => `${percentOn(scale, value)}%`
  const bar = (name: string, { lowRpm, highRpm }: Spread) => (
    <line className={name} x1={at(lowRpm)} x2={at(highRpm)} y1="50%" y2="50%" />
  )
  return (
    <svg
      className="band-bar"
      data-flag={flag}
      data-lines={lines}
      // Drawn as a background: a table has many rows, and lines in each would be many elements.
      style={{ '--line-pitch': `${(100 * scale.stepRpm) / (scale.toRpm - scale.fromRpm)}%` } as CSSProperties}
      width="100%"
      height="100%"
      aria-hidden="true"
    >
      {beneath && bar('band-bar-beneath', beneath)}
      {band && bar('band-bar-band', band)}
      {rpm !== null && <circle className="band-bar-rpm" cx={at(rpm)} cy="50%" r="2" />}
    </svg>
  )
}
