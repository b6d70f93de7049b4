import { memo } from 'react'
import { bearingOf } from '../../../../core/picture/bearing-of.ts'
import type { Point } from '../picture/view.ts'
import { outlineOf } from '../state/seen.ts'
import { useBench } from '../state/use-bench.ts'
import { alikes, onDial, stroke } from './dial-geometry.ts'
import { MarkGlyph, markHue } from './mark-look.tsx'
import { ringRoom } from './shown-on.ts'

const degrees = Array.from({ length: 36 }, (_, i) => i * 10)

type DialProps = { centre: Point; ballRadius: number }

/** The ring of bearings around the ball: every sighting's bearing, this frame's, and the fit's. */
export function Dial({ centre, ballRadius }: DialProps) {
  const ring = ballRadius + ringRoom
  return (
    <g className="dial">
      <DialRing x={centre.x} y={centre.y} ring={ring} />
      <Trail x={centre.x} y={centre.y} radius={ring} />
      <Now centre={centre} ring={ring} />
    </g>
  )
}

/** What never changes while one works: the ring, its ticks and their degrees. */
export const DialRing = memo(function DialRing({ x, y, ring }: { x: number; y: number; ring: number }) {
  const centre = { x, y }
  return (
    <>
      <circle className="dial-ring" cx={x} cy={y} r={ring} />
      <path
        className="dial-ticks"
        d={degrees.map(deg => stroke(centre, ring, ring + (deg % 30 === 0 ? 9 : 5), deg)).join('')}
      />
      {[0, 90, 180, 270].map(deg => {
        const at = onDial(centre, ring + 27, deg)
        return (
          <text key={deg} className="dial-label figure" x={at.x} y={at.y}>
            {deg}°
          </text>
        )
      })}
    </>
  )
})

/** The bearings of all frames, as a stroboscope would leave them on the ring. */
const Trail = memo(function Trail({ x, y, radius }: { x: number; y: number; radius: number }) {
  const marks = useBench(state => state.marks)
  const timesSeconds = useBench(state => state.timesSeconds)
  return marks.sightings.map(seen => {
    const bearing = bearingOf(seen, outlineOf({ marks, timesSeconds, dragged: null }, seen.frame))
    if (bearing === null) return null
    const at = onDial({ x, y }, radius, bearing)
    const index = marks.marks.findIndex(mark => mark.id === seen.mark)
    return (
      <MarkGlyph
        key={`${seen.frame} ${seen.mark}`}
        index={index}
        x={at.x}
        y={at.y}
        size={2.5}
        opacity={0.75}
      />
    )
  })
})

/** This frame: each mark's bearing as a solid stroke, the fit's as an open pointer. */
function Now({ centre, ring }: { centre: Point; ring: number }) {
  const marks = useBench(state => state.marks)
  const timesSeconds = useBench(state => state.timesSeconds)
  const frame = useBench(state => state.frame)
  const live = useBench(state => state.live)
  const outline = outlineOf({ marks, timesSeconds, dragged: null }, frame)
  return marks.marks.map((mark, index) => {
    const seen = marks.sightings.find(each => each.frame === frame && each.mark === mark.id)
    const bearing = seen ? bearingOf(seen, outline) : null
    const expected = live.expected(mark, frame)
    return (
      <g key={mark.id}>
        {bearing !== null &&
          alikes(bearing, mark.symmetryOrder).map((deg, turn) => (
            <path
              key={deg}
              d={stroke(centre, ring - 6, ring + 12, deg)}
              stroke={markHue(index)}
              strokeWidth={turn === 0 ? 3.5 : 1.5}
            />
          ))}
        {expected && !expected.hidden && (
          <path
            className="dial-fit"
            d="M11 0L19 -4.5V4.5Z"
            transform={`translate(${centre.x} ${centre.y}) rotate(${expected.bearingDeg}) translate(${ring} 0)`}
          />
        )}
      </g>
    )
  })
}
