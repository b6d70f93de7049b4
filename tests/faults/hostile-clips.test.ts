import { expect, it } from 'vitest'
import { openSpoiledClips } from './hostile/spoiled-clips.ts'

it('forty spoiled clips are opened or refused by name, in time, in little memory, and stay as they are', async () => {
  const { copies, opened, faults } = await openSpoiledClips(40, 90_000)
  expect(faults).toEqual([])
  expect(copies).toBe(40)
  expect(opened).toBeGreaterThan(0)
}, 600_000)
