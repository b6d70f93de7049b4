import { describe, expect, it } from 'vitest'
import type { Marks } from '../../../../core/contract/marks.ts'
import { angleBetween, type Vector } from '../../../../core/geometry/vector.ts'
import type { Estimate } from '../../../../core/spin/estimate.ts'
import { observationsOf } from '../../../../core/spin/observations-of.ts'
import { fitSphere } from '../../../../core/spin/sphere/fit-sphere.ts'
import { chanceOf } from '../../../bench/simulate/random.ts'
import { type P3, spun, times } from '../../../bench/simulate/space.ts'

const rpmOf = (radPerSecond: number) => (radPerSecond * 60) / (2 * Math.PI)

type Hit = {
  rpm: number
  axis: P3
  marks: P3[]
  frames: number
  fps: number
  symmetryOrder: number
  clickPx: number
  hides: boolean
  kind: 'point' | 'direction'
}

/** A hit seen from far away by a camera with a very long lens and a global shutter. */
function marksOf(change: Partial<Hit>): Marks {
  const hit: Hit = {
    rpm: 1800,
    axis: [0.6, 0, 0.8],
    marks: [[0.3, 0.5, -Math.sqrt(0.66)]],
    frames: 30,
    fps: 240,
    symmetryOrder: 1,
    clickPx: 0,
    hides: true,
    kind: 'point',
    ...change,
  }
  const chance = chanceOf(3)
  const spin = times(hit.axis, (hit.rpm * 2 * Math.PI) / 60)
  const frames = Array.from({ length: hit.frames }, (_, index) => {
    const seen: Marks['frames'][number]['seen'] = []
    const hidden: string[] = []
    hit.marks.forEach((place, m) => {
      const u = spun(place, times(spin, index / hit.fps))
      const id = `m${m}`
      if (hit.kind === 'direction')
        seen.push({ mark: id, bearingDeg: (Math.atan2(u[1], u[0]) * 180) / Math.PI })
      else if (u[2] < -0.1) {
        const px = (x: number) => 60 * x + chance.normal(hit.clickPx)
        seen.push({ mark: id, xPx: 480 + px(u[0]), yPx: 270 + px(u[1]) })
      } else if (hit.hides) hidden.push(id)
    })
    return { index, outline: { xPx: 480, yPx: 270, radiusPx: 60 }, seen, hidden }
  })
  return {
    schema: 'whorl.marks/1',
    capture: { fps: hit.fps, focalLengthPx: 1e6, readoutSeconds: 0, exposureSeconds: 1e-4 },
    picture: { widthPx: 960, heightPx: 540 },
    ball: { diameterMetres: 0.074 },
    marks: hit.marks.map((_, m) => ({ id: `m${m}`, symmetryOrder: hit.symmetryOrder })),
    frames,
    click: { standardUncertaintyPx: Math.max(hit.clickPx, 0.3) },
  }
}

function read(marks: Marks) {
  const observed = observationsOf(marks)
  if ('measured' in observed) throw new Error(observed.reason)
  return fitSphere(observed.observations)
}
function measured(marks: Marks): Estimate {
  const estimate = read(marks)
  if (!estimate.measured) throw new Error(estimate.reason)
  return estimate
}

describe('the sphere fit finds rate, sense and axis exactly', () => {
  const axes: P3[] = [
    [0, 0, 1],
    [0, 0, -1],
    [0.6, 0, 0.8],
    [-0.48, 0.6, -0.64],
    [0.96, 0, 0.28],
    [0, -1, 0],
  ]
  it.each(axes.map(axis => [axis.join(', '), axis] as const))('about (%s)', (_, axis) => {
    const { rotationRadPerSecond, rateRadPerSecond } = measured(marksOf({ axis }))
    expect(rpmOf(Math.hypot(...rotationRadPerSecond))).toBeCloseTo(1800, 2)
    expect(angleBetween(rotationRadPerSecond, axis as Vector)).toBeLessThan(1e-4)
    if (Math.abs(axis[2]) > 0.1) expect(Math.sign(rateRadPerSecond)).toBe(Math.sign(axis[2]))
  })

  it('from two marks that are each hidden part of the turn', () => {
    const estimate = measured(
      marksOf({
        axis: [1, 0, 0],
        marks: [
          [0, 0.6, -0.8],
          [0, -0.8, 0.6],
        ],
      }),
    )
    expect(rpmOf(Math.hypot(...estimate.rotationRadPerSecond))).toBeCloseTo(1800, 2)
  })

  it('of a mark that repeats after half a turn', () => {
    const estimate = measured(marksOf({ rpm: 900, symmetryOrder: 2, axis: [0, 0, 1] }))
    expect(rpmOf(estimate.rateRadPerSecond)).toBeCloseTo(900, 2)
  })

  it('from bearings of lines alone', () => {
    const hit = marksOf({
      kind: 'direction',
      rpm: 1500,
      axis: [0.48, 0.36, 0.8],
      marks: [
        [0.8, 0.6, 0],
        [0, 1, 0],
      ],
    })
    const estimate = read(hit)
    expect(estimate.measured).toBe(true)
    if (estimate.measured) expect(rpmOf(estimate.rateRadPerSecond)).toBeCloseTo(1500, 1)
  })
})

describe('what the sphere fit says of itself', () => {
  it('responds to a click as its own slopes say', () => {
    const marks = marksOf({ clickPx: 0.5, axis: [0.48, 0.36, 0.8] })
    const before = measured(marks)
    const moved = structuredClone(marks)
    const sighting = moved.frames[10]!.seen[0] as { xPx: number }
    const at = moved.frames.slice(0, 10).reduce((n, frame) => n + frame.seen.length, 0)
    sighting.xPx += 0.1
    const change = (measured(moved).rateRadPerSecond - before.rateRadPerSecond) / 0.1
    expect(change / before.sightings[at]!.ratePerXPx).toBeCloseTo(1, 1)
  })

  it('weighs a click on the wrong thing down and keeps the rate', () => {
    const marks = marksOf({ clickPx: 0.5 })
    const sighting = marks.frames[8]!.seen[0] as { xPx: number; yPx: number }
    sighting.xPx += 25
    const estimate = measured(marks)
    const at = marks.frames.slice(0, 8).reduce((n, frame) => n + frame.seen.length, 0)
    expect(estimate.sightings[at]!.weight).toBeLessThan(0.5)
    expect(Math.abs(rpmOf(estimate.rateRadPerSecond) - 1800)).toBeLessThan(5)
  })

  it('models a hidden mark as hidden', () => {
    const marks = marksOf({ axis: [1, 0, 0], marks: [[0, 0.6, -0.8]] })
    const { modelled } = measured(marks)
    for (const one of modelled) {
      if (marks.frames[one.frame]!.hidden!.length > 0) expect(one.hidden).toBe(true)
    }
  })
})

describe('the sphere fit says why it has no axis', () => {
  it('of two frames only', () => {
    const estimate = read(marksOf({ frames: 2 }))
    expect(estimate).toMatchObject({ measured: false, reason: expect.stringContaining('2 frames') })
  })

  it('of marks that stay where they are', () => {
    const estimate = read(marksOf({ rpm: 0.5, frames: 8 }))
    expect(estimate).toMatchObject({ measured: false })
  })

  it('of a short arc, with how well the axis is known', () => {
    const estimate = read(marksOf({ rpm: 60, frames: 6, clickPx: 1 }))
    expect(estimate).toMatchObject({
      measured: false,
      reason: expect.stringMatching(/too little of the ball/),
    })
  })

  it('of directions that look the same three times a turn, which no tilted ball shows', () => {
    const marks = marksOf({ marks: [[0.5, 0, -0.87]] })
    const turning = (frame: Marks['frames'][number]) =>
      frame.seen.map(({ mark }) => ({ mark, bearingDeg: 30 * frame.index }))
    const estimate = read({
      ...marks,
      marks: marks.marks.map(mark => ({ ...mark, symmetryOrder: 3 })),
      frames: marks.frames.map(frame => ({ ...frame, seen: turning(frame) })),
    })
    expect(estimate).toMatchObject({ measured: false, reason: expect.stringMatching(/same 3 times a turn/) })
  })
})
