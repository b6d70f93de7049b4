import { useState } from 'react'
import type { TableRow } from '../../../core/contract/standings.ts'
import { type MoreHits as Answer, moreHitsFor } from '../../../core/ratings/more-hits.ts'
import { counted } from '../../components/counted.ts'
import { halfWidthOf } from '../../components/figure-text.ts'

/** How many hits would narrow the band to what a person wants. */
export function MoreHits({ row }: { row: TableRow }) {
  const { band, hits, ownUncertaintyRpm, sharedUncertaintyRpm } = row
  const [wanted, setWanted] = useState(() => String(band ? niceBelow(halfWidthOf(band)) : 10))
  if (band === null || ownUncertaintyRpm === null) return null
  const halfWidth = Number(wanted.replace(',', '.'))
  const answer =
    halfWidth > 0
      ? moreHitsFor(
          {
            hits,
            band,
            own: { standardUncertaintyRpm: ownUncertaintyRpm },
            shared: [{ source: 'shared', standardUncertaintyRpm: sharedUncertaintyRpm ?? 0 }],
          },
          halfWidth,
        )
      : null
  return (
    <p className="more-hits">
      <label>
        For ± <input inputMode="decimal" value={wanted} onChange={event => setWanted(event.target.value)} />{' '}
        rpm:
      </label>{' '}
      <span aria-live="polite">{answer ? words(answer) : 'a rate above 0'}</span>
    </p>
  )
}

/** Half of it, to one digit. */
function niceBelow(halfWidthRpm: number): number {
  const power = 10 ** Math.floor(Math.log10(halfWidthRpm / 2))
  return Math.max(1, Math.floor(halfWidthRpm / 2 / power) * power)
}

function words(answer: Answer): string {
  switch (answer.reason) {
    case null:
      return answer.hits === 0 ? 'reached already' : `${counted(answer.hits, 'hit')} more`
    case 'one-hit':
      return 'a single hit cannot say'
    case 'shared-part':
      return 'no number of hits will do: what the camera adds is wider'
    case 'too-many':
      return 'more than ten thousand'
  }
}
