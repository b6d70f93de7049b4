import { expect, test } from 'vitest'
import { createLanes } from '../../../electron/service/lanes.ts'

/** Starts jobs that end when told so; `running` names those that have begun and not ended. */
function jobsIn(count: number) {
  const inLane = createLanes(count)
  const running = new Set<string>()
  const ends = new Map<string, () => void>()
  const start = (name: string, lanes?: number) =>
    inLane(async () => {
      running.add(name)
      await new Promise<void>(resolve => ends.set(name, resolve))
      running.delete(name)
      return name
    }, lanes)
  const end = async (name: string) => {
    ends.get(name)!()
    await new Promise(resolve => setImmediate(resolve))
  }
  return { start, end, running }
}
const begun = () => new Promise(resolve => setImmediate(resolve))

test('a large job waits until enough lanes are free, and those behind it wait for their turn', async () => {
  const { start, end, running } = jobsIn(3)
  const all = [start('a'), start('b', 2), start('c', 2), start('d')]
  await begun()
  expect([...running]).toEqual(['a', 'b'])
  await end('a')
  // One is free, which would do for `d`, but `c` came before.
  expect([...running]).toEqual(['b'])
  await end('b')
  expect([...running]).toEqual(['c', 'd'])
  await end('c')
  await end('d')
  expect(await Promise.all(all)).toEqual(['a', 'b', 'c', 'd'])
})

test('a job that is larger than all lanes takes them all, and one that fails gives them back', async () => {
  const { start, end, running } = jobsIn(2)
  const inLane = createLanes(1)
  await expect(inLane(() => Promise.reject(new Error('no')))).rejects.toThrow('no')
  expect(await inLane(async () => 7, 5)).toBe(7)
  void start('huge', 9)
  void start('small')
  await begun()
  expect([...running]).toEqual(['huge'])
  await end('huge')
  expect([...running]).toEqual(['small'])
  await end('small')
})
