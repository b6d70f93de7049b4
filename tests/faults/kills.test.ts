import { expect, it } from 'vitest'
import { killAtMoments } from './kills/moments.ts'

it('a kill at any of 16 moments of marking, export, migration and reading loses at most the click in flight', async () => {
  const figures = await killAtMoments(16, 7)
  expect(figures.moments).toBe(16)
  expect(figures.clicksThere - figures.clicksSaid).toBeLessThanOrEqual(1)
  expect(figures.clicksThere).toBeGreaterThan(0)
  expect(figures.roundsBegun).toBeGreaterThan(0)
  expect(figures.filesMigrated).toBeGreaterThan(0)
  expect(figures.clipsRead).toBeGreaterThan(0)
}, 600_000)
