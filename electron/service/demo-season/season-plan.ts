import type { MetricValue } from '../../../core/contract/metrics.ts'
import type { SessionDetails } from '../../../core/contract/workspace.ts'
import type { Chance } from './chance.ts'

export const stock = 'stock'
export const reference = { paddle: 'Plumbline 15 (reference)', setUp: stock }

/** A paddle in one set-up as it was invented: its true spin, and how much it differs from hit to hit. */
export type InventedSetUp = { paddle: string; setUp: string; rpm: number; hitSdRpm: number }
export type InventedSession = {
  details: SessionDetails
  /** The true capture rate over the stated one, and what the arm did to every hit of that day. */
  captureError: number
  dayFactor: number
  /** Who was hit how often. */
  hits: { of: InventedSetUp; count: number }[]
}
export type Season = {
  metrics: { paddle: string; setUp: null; values: MetricValue[] }[]
  sessions: InventedSession[]
}

const makers = [
  'Aldmere', 'Brackle', 'Corvane', 'Dunsel', 'Eskin', 'Fallowick', 'Gorsley', 'Hindle', 'Istrane', 'Jorrow',
  'Kelder', 'Lantry', 'Mossop', 'Nettlefell', 'Oxmere', 'Perrin', 'Quarrow', 'Rusk', 'Senlow', 'Thornaby',
] // biome-ignore format: a list of names.
const shapes = ['wide', 'hybrid', 'long'] as const
const faces = [
  { face: 'raw weave', rpm: 2080 },
  { face: 'sprayed grit', rpm: 1860 },
  { face: 'smooth weave', rpm: 1560 },
]
const dressed = ['3 g at the tip', 'after 30 hours of play', '6 g at three and nine']
const days = [
  '2026-01-10',
  '2026-01-24',
  '2026-02-07',
  '2026-02-21',
  '2026-03-07',
  '2026-03-21',
  '2026-04-04',
]

/** A season of some sixty invented paddles: every name and figure in it is made up, the same every time. */
export function inventSeason(chance: Chance): Season {
  const metrics: Season['metrics'] = []
  const setUps: InventedSetUp[] = []
  for (const [i, maker] of makers.entries()) {
    const { face, rpm: faceRpm } = faces[i % faces.length]!
    const makerRpm = faceRpm + chance.normal(110)
    for (const thickness of i % 7 === 3 ? [14, 16] : [12, 14, 16]) {
      const paddle = `${maker} ${letters[(i * 3 + thickness) % letters.length]}${thickness}`
      const shape = chance.pick(shapes)
      const rpm = makerRpm + 18 * (16 - thickness) + chance.normal(35)
      metrics.push({ paddle, setUp: null, values: measuredElsewhere({ thickness, shape, face }, chance) })
      const hitSdRpm = chance.between(18, 60)
      setUps.push({ paddle, setUp: stock, rpm, hitSdRpm })
      if (chance.share() < 0.16) {
        const setUp = chance.pick(dressed)
        const change = setUp.startsWith('after') ? -chance.between(40, 220) : chance.between(-30, 40)
        setUps.push({ paddle, setUp, rpm: rpm + change, hitSdRpm })
      }
    }
  }
  return { metrics, sessions: days.map((day, at) => inventSession(day, at, setUps, chance)) }
}

const letters = 'AVLKRET'

function measuredElsewhere(
  { thickness, shape, face }: { thickness: number; shape: (typeof shapes)[number]; face: string },
  chance: Chance,
): MetricValue[] {
  const longer = shapes.indexOf(shape)
  const swing = 106 + 5 * longer + chance.normal(3)
  const power = 20 + 0.08 * (swing - 110) - 0.12 * (thickness - 14) + chance.normal(0.5)
  const value = (name: string, unit: string, figure: number, decimals: number): MetricValue => ({
    name,
    unit,
    value: Number(figure.toFixed(decimals)),
  })
  return [
    value('thickness', 'mm', thickness, 0),
    { name: 'shape', unit: '', value: shape },
    { name: 'face', unit: '', value: face },
    value('swing weight', 'kg·cm²', swing, 1),
    value('twist weight', 'kg·cm²', 7.1 - 0.5 * longer + chance.normal(0.25), 2),
    value('power', 'm/s', power, 1),
    value('pop', 'm/s', 0.62 * power - 0.15 * (thickness - 14) + chance.normal(0.4), 1),
  ]
}

/** Each set-up has its days: one, or two for every third; the reference is hit on all of them. */
function inventSession(
  day: string,
  at: number,
  setUps: readonly InventedSetUp[],
  chance: Chance,
): InventedSession {
  const mine = setUps.filter(
    (_, i) => i % days.length === at || (i % 3 === 0 && (i + 3) % days.length === at),
  )
  const dim = at === 4
  return {
    captureError: 1 + chance.normal(0.0001),
    dayFactor: at === 2 ? 0.975 : 1 + chance.normal(0.004),
    hits: [
      { of: { ...reference, rpm: 1930, hitSdRpm: 24 }, count: 5 },
      ...mine.map(of => ({ of, count: chance.pick([1, 3, 4, 4, 5]) })),
    ],
    details: {
      day,
      place: 'Tallow Lane hall, bay 3',
      camera: {
        name: at < 5 ? 'bench camera' : 'second camera',
        captureFps: 240,
        relativeUncertainty: at < 5 ? 0.0001 : 0.001,
        exposureSeconds: dim ? 0.0032 : 0.0005,
        readoutSeconds: 0,
        readoutUncertaintySeconds: null,
        focalLengthPx: 1300,
      },
      ball: { name: 'Bramble 40, lime', diameterMetres: 0.074 },
      hitBy: 'swing arm, 14 m/s at the middle of the face',
      maxRpm: 4000,
      clickStandardUncertaintyPx: 1,
      notes: `Invented for the demo: simulated marks, no clips behind them.${dim ? ' Dim light, a long exposure.' : ''}`,
    },
  }
}
