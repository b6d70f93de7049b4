import { mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, it } from 'vitest'
import { renderOnce } from '../../sample-clips/renderer/render-scene.ts'
import { testSet } from '../../sample-clips/renderer/test-set.ts'
import { truthOf } from '../../sample-clips/renderer/truth.ts'

const hits = [...testSet(60, 5)]
const folder = mkdtempSync(join(tmpdir(), 'test set '))
afterAll(() => rmSync(folder, { recursive: true }))

const made = (part: string, of: (hit: (typeof hits)[number]) => string | undefined) =>
  new Set(hits.filter(hit => hit.part === part).map(of))

it('draws the same hits from the same seed, and others from another', () => {
  expect([...testSet(8, 5)]).toEqual(hits.slice(0, 8))
  expect([...testSet(1, 6)]).not.toEqual(hits.slice(0, 1))
})

it('keeps a lamp, a backdrop, a hole layout and a logo out of the tuning part', () => {
  for (const of of [
    (hit: (typeof hits)[number]) => hit.scene.lamp,
    (hit: (typeof hits)[number]) => hit.scene.backdrop,
    ({ scene }: (typeof hits)[number]) => (scene.ball.layout === 'closed' ? undefined : scene.ball.layout),
    ({ scene }: (typeof hits)[number]) =>
      scene.ball.prints.flatMap(p => (p.kind === 'logo' ? p.logo : []))[0],
  ]) {
    const [seen, held] = [made('tuning', of), made('held-out', of)]
    seen.delete(undefined)
    held.delete(undefined)
    expect(seen.size).toBeGreaterThan(0)
    expect(held.size).toBeGreaterThan(0)
    expect([...held].filter(value => seen.has(value))).toEqual([])
  }
})

it('stays within the ranges that the set is stated for', () => {
  for (const { scene, surface } of hits) {
    const { camera, encoding, ball } = scene
    expect([120, 240]).toContain(camera.fps)
    expect(camera.exposureSeconds).toBeGreaterThanOrEqual(1 / 4000)
    expect(camera.exposureSeconds).toBeLessThanOrEqual(1 / 250)
    // A sensor reads a frame out before it begins the next.
    expect(camera.readoutSeconds).toBeLessThan(1 / camera.fps)
    expect(encoding.crf).toBeGreaterThanOrEqual(18)
    expect(encoding.crf).toBeLessThanOrEqual(28)
    expect(ball.prints.length > 0).toBe(surface !== 'holes')
    expect(ball.layout === 'closed').toBe(surface === 'logo')
    const truth = truthOf(scene)
    for (const { rpm, frames } of truth.flights) {
      // Decay over the flight may bring the mean a little under what was drawn.
      expect(rpm).toBeGreaterThan(280)
      expect(rpm).toBeLessThanOrEqual(3000)
      expect(frames.length).toBeGreaterThanOrEqual(8)
      expect(Math.min(...frames.map(frame => frame.radiusPx))).toBeGreaterThan(17)
      expect(Math.max(...frames.map(frame => frame.radiusPx))).toBeLessThan(76)
    }
  }
  expect(hits.some(({ scene }) => scene.camera.readoutSeconds > 0)).toBe(true)
  expect(hits.some(({ scene }) => scene.flights.length === 2)).toBe(true)
})

it('renders a scene once, whatever its folder is called', async () => {
  const scene = { ...hits[0]!.scene, captured: 2, name: 'two frames' }
  const first = await renderOnce(scene, folder)
  const { mtimeMs } = statSync(first.clipPath)
  const again = await renderOnce(scene, folder)
  expect(again).toEqual(first)
  expect(statSync(again.clipPath).mtimeMs).toBe(mtimeMs)
  const other = await renderOnce({ ...scene, seed: scene.seed + 1 }, folder)
  expect(other.clipPath).not.toBe(first.clipPath)
})
