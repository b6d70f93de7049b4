import type { HitRecord } from './record.ts'

export type CellCoverage = { cell: string; hits: number; coverage: number }

const share = (records: HitRecord[], is: (r: HitRecord) => boolean) =>
  records.filter(is).length / records.length

/** Cells with fewer clear hits than this say more about chance than about bands. */
const fewestInCell = 200

/** Coverage of every level of every factor, and of every pair of levels of two factors, worst first. */
function cellCoverages(clear: HitRecord[]): CellCoverage[] {
  const cells = new Map<string, { hits: number; covered: number }>()
  for (const record of clear) {
    const levels = Object.entries(record.cell).map(([factor, level]) => `${factor} ${level}`)
    levels.forEach((level, i) => {
      for (const other of ['', ...levels.slice(i + 1)]) {
        const name = other ? `${level}, ${other}` : level
        const cell = cells.get(name) ?? { hits: 0, covered: 0 }
        cell.hits++
        if (record.covered) cell.covered++
        cells.set(name, cell)
      }
    })
  }
  return [...cells]
    .filter(([, { hits }]) => hits >= fewestInCell)
    .map(([cell, { hits, covered }]) => ({ cell, hits, coverage: covered / hits }))
    .sort((a, b) => a.coverage - b.coverage)
}

/** Angles up to this are small: what is left out of a straight line through sine is below 0.2 %. */
const smallRad = 0.1
const smallShare = 0.05
/** No reading has an axis that it knows worse than this: one further off is a mirrored one. */
const anotherAxisDeg = 30

/**
 * Where errors are small enough for the bound to hold, by the bound's own figures: the axis, and the turn at
 * either end of the hit, known to 0.1 rad, the rate to 5 %. And the candidate is the right one, neither another
 * rate nor a mirrored axis: the bound tells how far an estimate lies off in its own basin; how often it is in
 * another is a figure of its own (Rife and Boorstyn keep the two apart in the same way).
 */
const boundHolds = ({
  boundRpm,
  boundAxisDeg,
  truthRpm,
  spanSeconds,
  isOtherRate,
  axisErrorDeg,
}: HitRecord): boolean =>
  boundRpm !== null &&
  !isOtherRate &&
  !(axisErrorDeg !== null && axisErrorDeg > anotherAxisDeg) &&
  boundRpm < smallShare * truthRpm &&
  (boundRpm * 2 * Math.PI * spanSeconds) / 60 / 2 < smallRad &&
  (boundAxisDeg! * Math.PI) / 180 < smallRad

/** Root mean square error in units of the bound. */
function rmsOverBound(clear: HitRecord[], method: HitRecord['method']): { rms: number; hits: number } {
  const holding = clear.filter(r => r.method === method && boundHolds(r))
  const mean = holding.reduce(
    (sum, r) => sum + ((r.rpm! - r.truthRpm) / r.boundRpm!) ** 2 / holding.length,
    0,
  )
  return { rms: holding.length > 0 ? Math.sqrt(mean) : Number.NaN, hits: holding.length }
}

function median(values: number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[sorted.length >> 1] ?? Number.NaN
}

export function summaryOf(records: HitRecord[]) {
  const clear = records.filter(r => r.flag === 'clear')
  const cells = cellCoverages(clear)
  const withAxis = clear.filter(r => r.axisErrorDeg !== null)
  return {
    hits: records.length,
    clear: clear.length,
    coverage: share(clear, r => r.covered),
    cells,
    worstCellCoverage: cells[0]?.coverage ?? Number.NaN,
    wrongAliasCalledClear: share(clear, r => r.isOtherRate),
    bearing: rmsOverBound(clear, 'bearing'),
    sphere: rmsOverBound(clear, 'sphere'),
    bandOverCounting: median(clear.flatMap(r => (r.bandOverCounting === null ? [] : [r.bandOverCounting]))),
    axisCoverage: share(withAxis, r => r.axisErrorDeg! <= r.axisConeDeg!),
    medianMilliseconds: median(records.map(r => r.milliseconds)),
  }
}
