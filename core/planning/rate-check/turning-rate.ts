import { parabolaPeak } from '../../numerics/parabola-peak.ts'
import { notFound, type RateFound } from './rate-found.ts'

/** One turn's pictures must repeat this much better than pictures at any other distance do. */
const deepest = 0.5
/** A true rate this much below or above the one that the camera is set to is looked for. */
const [lowest, highest] = [0.7, 1.4]
const fewestFrames = 24
const blocks = 6
/** How far a parabola through three differences may miss the true dip, frames (standard uncertainty). */
const dipUncertainty = 0.03

export type TurningSeen = {
  found: RateFound
  /** How much pictures so many frames apart differ, relative to the average: it dips at every turn. */
  differences: { framesApart: number; difference: number }[]
}

/**
 * The capture rate from pictures of something that turns evenly at a known rate: they repeat once a turn. The
 * turn is found as the distance in frames at which pictures differ least, and made sharper over several turns;
 * stretches of the clip give its scatter. What shows on the disc does not matter as long as it looks different
 * all the way round.
 *
 * @param pictures same-sized small pictures, one a frame, even in time; the camera stands still
 * @param knownRelative how well the known rate is known, standard uncertainty
 */
export function turningRate(
  pictures: readonly Uint8Array[],
  { knownRpm, knownRelative, nominalFps }: { knownRpm: number; knownRelative: number; nominalFps: number },
): TurningSeen {
  const expected = (60 * nominalFps) / knownRpm
  const n = pictures.length
  const none = (reason: string, tip: string, differences: TurningSeen['differences'] = []) => ({
    found: notFound(reason, tip),
    differences,
  })
  if (expected * lowest < 4)
    return none(
      `At ${knownRpm} rpm and ${nominalFps} fps a turn takes ${expected.toFixed(1)} frames: too few to tell pictures apart.`,
      'Film something that turns more slowly.',
    )
  if (n < expected * highest + fewestFrames)
    return none(
      `The clip has ${n} frames, ${(n / expected).toFixed(2)} turns; a check needs ${Math.ceil(expected * highest) + fewestFrames} frames.`,
      'Film two turns at the least; five make the rate sharper.',
    )
  const level = pictures.map(levelled)
  const differences = Array.from(
    { length: Math.min(n - fewestFrames, Math.ceil(expected * 2.2)) },
    (_, i) => ({
      framesApart: i + 1,
      difference: differenceAt(level, i + 1, 0, n, 48),
    }),
  )
  const mean = differences.reduce((sum, each) => sum + each.difference, 0) / differences.length
  for (const each of differences) each.difference /= mean
  const dip = dipNear(differences, expected)
  if (dip === null)
    return none(
      'The pictures do not repeat once a turn.',
      'Put something on the disc that looks different all the way round, and keep the camera still.',
      differences,
    )
  let turn = dip
  let turns = 1
  for (let k = 1; k * turn + fewestFrames + 2 <= n; k++) {
    const lag = sharpDip(level, Math.round(k * turn), 0, n)
    if (lag === null) break
    turn = lag / k
    turns = k
  }
  const lag = turns * turn
  const parts = Array.from({ length: blocks }, (_, b) => {
    const span = n - Math.ceil(lag) - 2
    return sharpDip(
      level,
      Math.round(lag),
      Math.floor((b * span) / blocks),
      Math.floor(((b + 1) * span) / blocks) + Math.ceil(lag) + 2,
    )
  }).filter(part => part !== null)
  const middle = parts.reduce((sum, part) => sum + part, 0) / parts.length
  const scatter = Math.sqrt(
    parts.reduce((sum, part) => sum + (part - middle) ** 2, 0) /
      Math.max(1, parts.length * (parts.length - 1)),
  )
  const captureFps = (turn * knownRpm) / 60
  return {
    found: {
      measured: true,
      captureFps,
      relativeUncertainty: Math.hypot(scatter / lag, dipUncertainty / lag, knownRelative),
      remarks: [`${turns === 1 ? 'One turn takes' : `${turns} turns take`} ${lag.toFixed(2)} frames.`],
    },
    differences,
  }
}

/** Without the picture's mean, which a lamp makes waver. */
function levelled(picture: Uint8Array): Float32Array {
  const mean = picture.reduce((sum, value) => sum + value, 0) / picture.length
  return Float32Array.from(picture, value => value - mean)
}

/** Mean square difference of pictures so far apart, of those from `from` to before `to`, some `most` of them. */
function differenceAt(
  pictures: readonly Float32Array[],
  apart: number,
  from: number,
  to: number,
  most: number,
) {
  const step = Math.max(1, Math.floor((to - apart - from) / most))
  let [sum, count] = [0, 0]
  for (let i = from; i + apart < to; i += step) {
    const [a, b] = [pictures[i]!, pictures[i + apart]!]
    for (let k = 0; k < a.length; k++) sum += (a[k]! - b[k]!) ** 2
    count += a.length
  }
  return count === 0 ? Number.POSITIVE_INFINITY : sum / count
}

/** The dip that is one turn: a disc may nearly repeat earlier, so of deep ones the nearest to the expected. */
function dipNear(differences: TurningSeen['differences'], expected: number): number | null {
  const dips = differences.filter(
    ({ framesApart, difference }, i) =>
      framesApart > lowest * expected &&
      framesApart < highest * expected &&
      difference < deepest &&
      difference <= (differences[i - 1]?.difference ?? 0) &&
      difference < (differences[i + 1]?.difference ?? 0),
  )
  const best = Math.min(...dips.map(({ difference }) => difference))
  const off = ({ framesApart }: { framesApart: number }) => Math.abs(Math.log(framesApart / expected))
  return (
    dips.filter(({ difference }) => difference < 1.5 * best).toSorted((a, b) => off(a) - off(b))[0]
      ?.framesApart ?? null
  )
}

/** The dip near a distance, to a part of a frame; null where there is none within two frames. */
function sharpDip(pictures: readonly Float32Array[], near: number, from: number, to: number): number | null {
  const at = [-3, -2, -1, 0, 1, 2, 3].map(off => differenceAt(pictures, near + off, from, to, 120))
  const i = at.indexOf(Math.min(...at))
  const [before, here, after] = [at[i - 1], at[i]!, at[i + 1]]
  if (before === undefined || after === undefined || !Number.isFinite(after)) return null
  return near + i - 3 + parabolaPeak(-before, -here, -after)
}
