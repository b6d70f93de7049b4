import type { BenchMark, PlacedSighting } from '../../../../core/contract/bench.ts'
import type { Reading } from '../../../../core/contract/reading.ts'
import type { BenchHit } from '../../../../core/contract/workspace.ts'
import { outlineAt } from '../../../../core/marking/outline-at.ts'
import { bearingDegOf } from '../../../../core/picture/bearing-of.ts'
import { seriesOf } from '../../../../core/picture/series-of.ts'
import type { Expected } from './expected-mark.ts'
import type { LiveReading, LiveSource } from './live-reading.ts'
import { proposedMarks } from './proposed.ts'

/**
 * What the bench shows of a hit that was read from the surface: the host's reading, the marks as they are, and
 * where the rotation has them in every frame.
 */
export function surfaceLive(source: LiveSource, hit: BenchHit): LiveReading {
  const reading = hit.row.reading?.method === 'surface' ? hit.row.reading : null
  return {
    reading,
    reason: reading ? null : 'It is being read.',
    hasFit: false,
    series: seriesOf(source, null),
    expected: expectedIn(source, hit, reading),
    bandHalfDeg: () => 0,
  }
}

function expectedIn(source: LiveSource, hit: BenchHit, reading: Reading | null): LiveReading['expected'] {
  const known = new Map<string, PlacedSighting[]>()
  const placesOf = (mark: BenchMark) => {
    const places = known.get(mark.id) ?? proposedMarks(source, hit, reading, mark)
    known.set(mark.id, places)
    return places
  }
  return (mark, frame): Expected | null => {
    const place = placesOf(mark).find(each => each.frame === frame)
    const outline = outlineAt(source.marks, frame, source.timesSeconds)
    if (place?.kind !== 'point' || !outline) return null
    const { xPx, yPx } = place
    return { xPx, yPx, bearingDeg: bearingDegOf(xPx - outline.xPx, yPx - outline.yPx), hidden: false }
  }
}
