import { expect, it } from 'vitest'
import { killAtMoments } from './kills/moments.ts'

it('a kill at any of 16 moments of marking, export, migration and reading loses at most the click in flight', async () => {
  const { moments, clicksSaid, clicksThere, roundsBegun, filesMigrated } = await killAtMoments(16, 7)
  expect(moments).toBe(16)
  expect(clicksThere - clicksSaid).toBeLessThanOrEqual(1)
  expect(clicksThere).toBeGreaterThan(0)
  expect(roundsBegun).toBeGreaterThan(0)
  expect(filesMigrated).toBeGreaterThan(0)
}, 600_000)
