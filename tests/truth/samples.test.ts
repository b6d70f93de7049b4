import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { marksSchema } from '../../core/contract/marks.ts'
import { sessionDetailsSchema } from '../../core/contract/workspace.ts'
import { cases } from '../../sample-clips/renderer/cases.ts'
import { ffmpegPath } from '../../sample-clips/renderer/encode.ts'
import { renderFrames, writtenFrames } from '../../sample-clips/renderer/frames.ts'
import { truthOf } from '../../sample-clips/renderer/truth.ts'
import type { Truth, TruthFlight } from '../../sample-clips/renderer/truth-form.ts'

const folder = join(import.meta.dirname, '../../sample-clips')
const json = (file: string) => JSON.parse(readFileSync(join(folder, file), 'utf8'))
const samples = cases.map(({ scene, clicks }) => {
  const truth: Truth = json(`${scene.name}.truth.json`)
  return { name: scene.name, scene, plan: clicks, truth, clicks: json(`${scene.name}.clicks.json`) }
})
const decodes = new Map<string, Buffer>()

type Vector = [number, number, number]
const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const rms = (values: number[]) => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length)

function probe(clip: string) {
  const require = createRequire(import.meta.url)
  const shipped: string = require('@ffprobe-installer/ffprobe').path
  const args = ['-v', 'error', '-select_streams', 'v:0', '-show_entries']
  const what = 'frame=best_effort_timestamp_time:stream=codec_name,pix_fmt,width,height'
  const run = (program: string) =>
    execFileSync(program, [...args, what, '-of', 'json', join(folder, clip)], { encoding: 'utf8' })
  let answer: string
  try {
    answer = run(shipped)
  } catch {
    answer = run('ffprobe')
  }
  const { streams, frames } = JSON.parse(answer)
  return {
    stream: streams[0] as { codec_name: string; pix_fmt: string; width: number; height: number },
    times: frames.map((f: { best_effort_timestamp_time: string }) =>
      Number(f.best_effort_timestamp_time),
    ) as number[],
  }
}

/** Luma of every frame of a clip, one byte a pixel. */
function lumaOf({ clip }: Truth): Buffer {
  const there = decodes.get(clip)
  if (there) return there
  const args = ['-v', 'error', '-i', join(folder, clip), '-vsync', 'passthrough', '-vf', 'extractplanes=y']
  const luma = execFileSync(ffmpegPath(), [...args, '-f', 'rawvideo', 'pipe:1'], { maxBuffer: 1 << 28 })
  decodes.set(clip, luma)
  return luma
}

/** Free fall from the first whole frame on, by the closed form; g of the 3rd CGPM, 1901. */
function centreAt({ positionMetres: p, velocityMetresPerSecond: v }: TruthFlight, since: number): Vector {
  return [p.x + v.x * since, p.y + v.y * since + (9.80665 * since * since) / 2, p.z + v.z * since]
}
/** A sensor row is read at t(i) + readout·(y/H), counted here from the flight's first frame (method.md). */
const sinceFirst = (truth: Truth, flight: TruthFlight, timeSeconds: number, yPx: number) =>
  timeSeconds - flight.frames[0]!.timeSeconds + (truth.capture.readoutSeconds * yPx) / truth.picture.heightPx
const project = ({ picture, capture }: Truth, [x, y, z]: Vector) => [
  picture.widthPx / 2 + (capture.focalLengthPx * x) / z,
  picture.heightPx / 2 + (capture.focalLengthPx * y) / z,
]

/** Outward direction of the ball's surface where the ray through a picture point first meets it. */
function surfaceAt(truth: Truth, centre: Vector, xPx: number, yPx: number): Vector {
  const { picture, capture, ball } = truth
  const ray: Vector = [
    (xPx - picture.widthPx / 2) / capture.focalLengthPx,
    (yPx - picture.heightPx / 2) / capture.focalLengthPx,
    1,
  ]
  const radius = ball.diameterMetres / 2
  const [a, b, c] = [dot(ray, ray), dot(ray, centre), dot(centre, centre) - radius * radius]
  const s = (b - Math.sqrt(b * b - a * c)) / a
  return minus([ray[0] * s, ray[1] * s, ray[2] * s], centre).map(v => v / radius) as Vector
}

const { cv } = createRequire(import.meta.url)('opencv-wasm')
/** OpenCV's own rotation of a vector by a rotation vector. */
function rodrigues(rotation: Vector, v: Vector): Vector {
  const from = cv.matFromArray(3, 1, cv.CV_64F, rotation)
  const to = new cv.Mat()
  cv.Rodrigues(from, to)
  const m = [...to.data64F] as number[]
  from.delete()
  to.delete()
  return [0, 3, 6].map(row => m[row]! * v[0] + m[row + 1]! * v[1] + m[row + 2]! * v[2]) as Vector
}

describe.each(samples)('$name', ({ scene, plan, truth, clicks }) => {
  it('is a small clip with the frames, size and times that its truth says', () => {
    expect(statSync(join(folder, truth.clip)).size).toBeLessThan(1_000_000)
    const { stream, times } = probe(truth.clip)
    expect(stream).toMatchObject({
      codec_name: truth.made.codec,
      pix_fmt: 'yuv420p',
      width: truth.picture.widthPx,
      height: truth.picture.heightPx,
    })
    const expected = writtenFrames(scene).map(
      capture => Math.round((capture * scene.encoding.timescale) / truth.playbackFps) * truth.tickSeconds,
    )
    expect(times.length).toBe(truth.frames)
    times.forEach((time, i) => {
      expect(Math.abs(time - expected[i]!)).toBeLessThan(truth.tickSeconds / 2 + 1e-6)
    })
  })

  it('has the truth that its scene gives today', () => {
    expect(truth).toEqual(JSON.parse(JSON.stringify(truthOf(scene))))
  })

  it('shows the ball where free fall through a pinhole puts it', () => {
    for (const flight of truth.flights)
      for (const frame of flight.frames) {
        const since = sinceFirst(truth, flight, frame.timeSeconds, frame.yPx)
        const first = sinceFirst(truth, flight, flight.frames[0]!.timeSeconds, 0)
        const [x, y] = project(truth, centreAt(flight, since - first))
        expect(Math.abs(x! - frame.centreXPx)).toBeLessThan(0.01)
        expect(Math.abs(y! - frame.centreYPx)).toBeLessThan(0.01)
      }
  })

  it('has the outline of a sphere’s points seen through a pinhole', () => {
    const flight = truth.flights[0]!
    const frame = flight.frames[0]!
    const centre = centreAt(flight, sinceFirst(truth, flight, frame.timeSeconds, frame.yPx))
    const radius = truth.ball.diameterMetres / 2
    const points = Array.from({ length: 10_000 }, (_, i) => {
      const z = 1 - (2 * i + 1) / 10_000
      const [ring, turn] = [Math.sqrt(1 - z * z), i * 2.399963]
      const at: Vector = [
        centre[0] + radius * ring * Math.cos(turn),
        centre[1] + radius * ring * Math.sin(turn),
        centre[2] + radius * z,
      ]
      return project(truth, at)
    })
    // Spans in many directions: their mean middle is the ellipse's, their extremes hold the mean radius.
    const spans = Array.from({ length: 36 }, (_, k) => {
      const [ux, uy] = [Math.cos((k * Math.PI) / 36), Math.sin((k * Math.PI) / 36)]
      const along = points.map(([x, y]) => x! * ux + y! * uy)
      const [low, high] = [along.reduce((a, b) => Math.min(a, b)), along.reduce((a, b) => Math.max(a, b))]
      return { half: (high - low) / 2, off: (high + low) / 2 - (frame.xPx * ux + frame.yPx * uy) }
    })
    const halves = spans.map(span => span.half)
    expect(rms(spans.map(span => span.off))).toBeLessThan(0.02)
    const [shortest, longest] = [Math.min(...halves), Math.max(...halves)]
    expect(Math.abs(frame.radiusPx - Math.sqrt(shortest * longest))).toBeLessThan(0.03)
  })

  it('turns its marks as OpenCV’s Rodrigues turns them', () => {
    for (const flight of truth.flights) {
      const { x, y, z } = flight.rotationRadPerSecond
      for (const { id } of truth.marks) {
        const seen = flight.frames.filter(frame => frame.marks[id]!.facing > 0.3)
        const placed = seen.map(frame => {
          const mark = frame.marks[id]!
          const since = sinceFirst(truth, flight, frame.timeSeconds, mark.yPx)
          return { since, u: surfaceAt(truth, centreAt(flight, since), mark.xPx, mark.yPx) }
        })
        const from = placed[0]
        for (const { since, u } of placed) {
          const dt = since - from!.since
          const turned = rodrigues([x * dt, y * dt, z * dt], from!.u)
          expect(Math.acos(Math.min(1, dot(turned, u)))).toBeLessThan(1e-3)
        }
      }
      const rate = Math.hypot(x, y, z)
      expect(flight.rpm).toBeCloseTo((rate * 30) / Math.PI, 3)
      expect(flight.axis.tiltDeg).toBeCloseTo((Math.acos(z / rate) * 180) / Math.PI, 3)
      expect(flight.sense).toBe(z > 0 ? 'clockwise' : 'counter-clockwise')
    }
  })

  it('shows each mark’s ink at the place that the truth names', () => {
    const luma = lumaOf(truth)
    const { widthPx, heightPx } = truth.picture
    // Over 11° of smear a dot is a faint streak: there the logo alone is asked for, and less of it.
    const smeared = ((truth.flights[0]!.rpm * Math.PI) / 30) * truth.capture.exposureSeconds > 0.2
    const off: number[] = []
    let dark = 0
    let looked = 0
    for (const flight of truth.flights)
      for (const frame of flight.frames)
        for (const [id, mark] of Object.entries(frame.marks)) {
          if (mark.facing < 0.55 || (smeared && id === 'dot')) continue
          const at = (x: number, y: number) =>
            luma[(frame.index * heightPx + Math.floor(y)) * widthPx + Math.floor(x)]!
          // The brightest quarter round about is bare skin.
          const reach = 0.32 * frame.radiusPx
          const near: { x: number; y: number; v: number; r: number }[] = []
          for (let y = Math.floor(mark.yPx - reach); y <= mark.yPx + reach; y++)
            for (let x = Math.floor(mark.xPx - reach); x <= mark.xPx + reach; x++) {
              const [px, py] = [x + 0.5, y + 0.5]
              near.push({ x: px, y: py, v: at(px, py), r: Math.hypot(px - mark.xPx, py - mark.yPx) })
            }
          const skin = near.map(p => p.v).sort((a, b) => b - a)[Math.floor(near.length / 4)]!
          looked++
          if (at(mark.xPx, mark.yPx) < (smeared ? 0.85 : 0.75) * skin) dark++
          if (id !== 'dot') continue
          const ink = near.filter(p => p.r < 0.22 * frame.radiusPx)
          const weigh = (p: { v: number }) => Math.max(0, 0.72 * skin - p.v)
          const sum = ink.reduce((total, p) => total + weigh(p), 0)
          const middle = (axis: 'x' | 'y') => ink.reduce((total, p) => total + p[axis] * weigh(p), 0) / sum
          off.push(Math.hypot(middle('x') - mark.xPx, middle('y') - mark.yPx))
        }
    expect(looked).toBeGreaterThan(8)
    expect(dark / looked).toBeGreaterThan(smeared ? 0.8 : 0.97)
    if (off.length > 0) {
      expect(rms(off)).toBeLessThan(0.55)
      expect(off.filter(d => d > 1).length / off.length).toBeLessThan(0.05)
    }
  })

  it('was clicked as whorl.marks/1 says, within the error of a hand', () => {
    const marks = marksSchema.parse(clicks)
    const flight = truth.flights[plan.flight]!
    expect(marks.frames.length).toBeGreaterThanOrEqual(12)
    expect(marks.frames.length).toBeLessThanOrEqual(20)
    const errors = marks.frames.flatMap(({ index, timeSeconds, outline, seen, hidden = [] }) => {
      const frame = flight.frames.find(f => f.index === index)!
      expect(Math.hypot(outline!.xPx - frame.xPx, outline!.yPx - frame.yPx)).toBeLessThan(2)
      expect(Math.abs(outline!.radiusPx - frame.radiusPx)).toBeLessThan(2)
      const real = timeSeconds ?? index / marks.capture.fps
      expect(Math.abs(real - frame.timeSeconds)).toBeLessThan((marks.capture.tickSeconds ?? 1e-5) / 2 + 1e-7)
      for (const mark of hidden) expect(frame.marks[mark]!.visible).toBe(false)
      return seen.flatMap(sighting => {
        const mark = frame.marks[sighting.mark]!
        expect(mark.visible).toBe(true)
        return 'xPx' in sighting ? [sighting.xPx - mark.xPx, sighting.yPx - mark.yPx] : []
      })
    })
    // 1 px a coordinate; the scatter of a standard deviation from n values is about 1/√(2n).
    expect(Math.abs(rms(errors) - 1)).toBeLessThan(4 / Math.sqrt(2 * errors.length))
  })
})

describe('the sample clips together', () => {
  it('stay under eight megabytes', () => {
    const bytes = readdirSync(folder).map(file => statSync(join(folder, file)).size)
    expect(bytes.reduce((a, b) => a + b)).toBeLessThan(8_000_000)
  })

  it('are drawn alike each time', () => {
    const { scene } = samples[0]!
    const first = () => renderFrames({ ...scene, captured: 3 }).next().value as Uint8Array
    expect(Buffer.compare(first(), first())).toBe(0)
  })

  it('each belong to one session of the demo, with the camera that the truth names', () => {
    const demo = json('demo.json')
    const paddles = new Map<string, string[]>(
      demo.paddles.map((p: { name: string; setUps: { name: string }[] }) => [
        p.name,
        p.setUps.map(s => s.name),
      ]),
    )
    const placed: string[] = []
    for (const { details, clips } of demo.sessions) {
      const { camera, ball } = sessionDetailsSchema.parse(details)
      for (const { clip, paddle, setUp } of clips) {
        placed.push(clip)
        expect(existsSync(join(folder, clip))).toBe(true)
        expect(paddles.get(paddle)).toContain(setUp)
        const { truth } = samples.find(sample => sample.truth.clip === clip)!
        expect(ball.diameterMetres).toBe(truth.ball.diameterMetres)
        expect(camera).toMatchObject({
          captureFps: truth.capture.fps,
          exposureSeconds: truth.capture.exposureSeconds,
          readoutSeconds: truth.capture.readoutSeconds,
          focalLengthPx: truth.capture.focalLengthPx,
        })
      }
    }
    expect(placed.sort()).toEqual(samples.map(sample => sample.truth.clip).sort())
  })
})
