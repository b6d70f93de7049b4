import type { Chance } from './random.ts'

/**
 * One cell of the grid that hits are drawn from. Every factor has a few levels; a hit takes one level of
 * each at random and a value inside it. The level's name is what cells are counted by.
 */
export type Factors = {
  frames: number
  rpm: number
  fps: number
  clickPx: number
  radiusPx: number
  tiltDeg: number
  outline: 'exact' | 'rim clicks' | 'rim clicks and bias'
  tickSeconds: number | null
  /** Share of the frame interval. */
  readout: number
  readoutKnown: boolean
  /** Share of the frame interval. */
  exposure: number
  exposureKnown: boolean
  marks: 1 | 2
  markKind: 'point' | 'direction'
  symmetryOrder: number
  times: 'even' | 'gaps' | 'uneven'
  focalKnown: boolean
  fieldOfViewDeg: number
  clickStated: boolean
  senseKnown: boolean
}

/** Level of each factor by name, for counting. */
export type Cell = Record<string, string>

const ranges = {
  frames: [
    [4, 6],
    [7, 12],
    [13, 24],
    [25, 60],
  ],
  rpm: [
    [100, 500],
    [500, 1200],
    [1200, 2500],
    [2500, 4700],
  ],
  clickPx: [
    [0.5, 1],
    [1, 2],
    [2, 3],
  ],
  radiusPx: [
    [15, 30],
    [30, 50],
    [50, 80],
  ],
  tiltDeg: [
    [0, 0],
    [0, 15],
    [15, 40],
    [40, 70],
    [70, 90],
  ],
} as const

export function drawFactors(chance: Chance): { factors: Factors; cell: Cell } {
  const cell: Cell = {}
  const within = (name: keyof typeof ranges): number => {
    const [low, high] = chance.pick<readonly [number, number]>(ranges[name])
    cell[name] = low === high ? `${low}` : `${low}–${high}`
    return chance.between(low, high)
  }
  const level = <T>(name: string, levels: readonly T[]): T => {
    const drawn = chance.pick(levels)
    cell[name] = `${drawn}`
    return drawn
  }
  const markKind = level('markKind', ['point', 'point', 'point', 'direction'] as const)
  const factors: Factors = {
    frames: Math.round(within('frames')),
    rpm: within('rpm'),
    fps: level('fps', [60, 120, 240, 480, 1000]),
    clickPx: within('clickPx'),
    radiusPx: within('radiusPx'),
    tiltDeg: within('tiltDeg'),
    outline: level('outline', ['exact', 'rim clicks', 'rim clicks and bias'] as const),
    tickSeconds: level('tick', [null, 1 / 600, 1 / 1000, 1 / 90000]),
    readout: level('readout', [0, 0.3, 0.8]),
    readoutKnown: level('readoutKnown', [true, true, false]),
    exposure: level('exposure', [0.02, 0.1, 0.3]),
    exposureKnown: level('exposureKnown', [true, false]),
    marks: level('marks', [1, 2] as const),
    markKind,
    symmetryOrder: level('symmetryOrder', markKind === 'direction' ? [1, 2] : [1, 1, 1, 1, 2]),
    times: level('times', ['even', 'even', 'gaps', 'uneven'] as const),
    focalKnown: level('focalKnown', [true, false]),
    fieldOfViewDeg: chance.between(25, 70),
    clickStated: level('clickStated', [true, false]),
    senseKnown: level('senseKnown', [true, false]),
  }
  return { factors, cell }
}
