import { studentT } from '../numerics/student-t.ts'
import { degOfRad } from '../units/angle.ts'
import { aliasSpacing, rankCandidates } from './alias.ts'
import { assumed } from './assumptions.ts'
import { type Bearings, bearingsOf } from './bearings-of.ts'
import type { Estimate, Estimator, ModelledMark, NotMeasured, SightingFit } from './estimate.ts'
import type { BearingFit, FitOptions } from './fit-bearings.ts'
import type { Observations } from './observations.ts'
import { peaksOf } from './periodogram.ts'
import { refine } from './refine-peaks.ts'
import { scatterOf } from './scatter.ts'

/** A scatter this large, in parts of the mark's repeat, is no agreement (uniform noise has 0.29). */
const contradictoryShare = 0.13
/** Chance of doubting an honest sighting somewhere in a hit. */
const doubtChance = 0.01

/**
 * The rate from bearings about the ball's centre, for an axis that faces the camera: all rates that line
 * the bearings up, each refined by robust least squares. Both steps as in method.md, "Fitting the bearing".
 */
export const fitBearing: Estimator = (o, nearRadPerSecond) => {
  const b = bearingsOf(o)
  const poor = tooPoor(o, b)
  if (poor) return poor
  const peaks = peaksOf(
    b,
    Math.max(o.plausible.maxRateRadPerSecond, aliasSpacing(o.capture.fps, leastOrder(o)) / 2),
  )
  const options = fitOptions(o, b)
  const found = refine(o, b, peaks, options)
  const candidates = rankCandidates(found, o)
  const chosen = nearRadPerSecond === undefined ? candidates[0] : nearestTo(candidates, nearRadPerSecond)
  const fit = found.find(one => one.rateRadPerSecond === chosen?.rateRadPerSecond)?.fit
  if (!chosen || !fit) return contradiction('No rate lines the bearings up.')
  return contradictionOf(o, b, fit) ?? { ...estimateOf(o, b, fit), candidates }
}

/** The order of the mark that repeats least: its half repeat a frame is looked at, plausible or not. */
const leastOrder = (o: Observations): number => Math.min(...o.marks.map(mark => mark.symmetryOrder))

function tooPoor(o: Observations, b: Bearings): NotMeasured | null {
  const moving = o.marks.some((_, mark) => {
    const times = b.timeSeconds.filter((_, k) => b.mark[k] === mark && b.pxPerRad[k]! > 0)
    return times.some(t => t !== times[0])
  })
  if (moving) return null
  const reason =
    b.count === 0
      ? 'No mark was seen in any frame.'
      : 'No mark was seen in two frames: one sighting shows no turning.'
  return { measured: false, reason, tip: 'Mark the same thing in at least four frames.' }
}

function fitOptions(o: Observations, b: Bearings): FitOptions {
  const redundancy = b.count - 1 - b.marksSeen
  return {
    timeErrorSeconds: (o.capture.tickSeconds ?? 0) / Math.sqrt(12),
    clickPx: o.clickPx ?? assumed.clickPx,
    corner: redundancy < 3 ? Number.POSITIVE_INFINITY : studentT(1 - doubtChance / (2 * b.count), redundancy),
  }
}

const nearestTo = <T extends { rateRadPerSecond: number }>(candidates: T[], rate: number): T | undefined =>
  candidates.toSorted((a, b) => Math.abs(a.rateRadPerSecond - rate) - Math.abs(b.rateRadPerSecond - rate))[0]

const contradiction = (reason: string): NotMeasured => ({
  measured: false,
  reason,
  tip: 'Check that the same thing was marked in every frame, and the outline.',
  contradictory: true,
})

/** Marks that no rate brings together: what is left at the best rate is nearly what chance leaves. */
function contradictionOf(o: Observations, b: Bearings, fit: BearingFit): NotMeasured | null {
  if (fit.redundancy < 1) return null
  let squares = 0
  for (let k = 0; k < b.count; k++) squares += (fit.residualRad[k]! / b.periodRad[k]!) ** 2
  const share = Math.sqrt(squares / Math.max(b.count - 1 - b.marksSeen, 1))
  const doubted = fit.weight.filter(weight => weight < 0.5).length
  if (share < contradictoryShare && doubted < b.count / 3) return null
  const order = o.marks[b.mark[0]!]!.symmetryOrder
  const scatter = degOfRad(share * ((2 * Math.PI) / order)).toFixed(0)
  return contradiction(`The marks contradict each other: at the best rate they still lie ${scatter}° off.`)
}

function estimateOf(o: Observations, b: Bearings, fit: BearingFit): Omit<Estimate, 'candidates'> {
  const scatter = scatterOf(fit.sumOfSquaresPx2, fit.redundancy, o.clickPx)
  return {
    measured: true,
    method: 'bearing',
    rotationRadPerSecond: [0, 0, fit.rateRadPerSecond],
    rateRadPerSecond: fit.rateRadPerSecond,
    axisUncertaintyRad: null,
    scatter,
    scatterUncertaintyRadPerSecond: scatter.px / Math.sqrt(fit.spread),
    sightings: o.sightings.map((sighting, k): SightingFit => {
      const isPoint = sighting.kind === 'point'
      const way = [-Math.sin(b.bearingRad[k]!), Math.cos(b.bearingRad[k]!)] as const
      const perPx = isPoint ? fit.leverage[k]! / b.pxPerRad[k]! : 0
      return {
        timeSeconds: b.timeSeconds[k]!,
        residualPx:
          isPoint || o.frames[sighting.frame]!.outline
            ? Math.abs(b.pxPerRad[k]! * fit.residualRad[k]!)
            : null,
        phaseResidualRad: fit.residualRad[k]!,
        pxPerRad: b.pxPerRad[k]!,
        way: isPoint ? way : [0, 0],
        weight: fit.weight[k]!,
        ratePerXPx: way[0] * perPx,
        ratePerYPx: way[1] * perPx,
        ratePerRadiusPx: 0,
        ratePerPhaseRad: fit.leverage[k]!,
      }
    }),
    modelled: modelledMarks(o, b, fit),
    remarks: [],
  }
}

function modelledMarks(o: Observations, b: Bearings, fit: BearingFit): ModelledMark[] {
  const seen = [...new Set(b.mark)]
  return o.frames.flatMap((frame, i) =>
    seen.map(mark => ({
      frame: i,
      mark,
      bearingRad: fit.offsetRad[mark]! + fit.rateRadPerSecond * frame.timeSeconds,
      xPx: null,
      yPx: null,
      hidden: false,
    })),
  )
}
