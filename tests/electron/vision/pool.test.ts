import { Worker } from 'node:worker_threads'
import { afterEach, describe, expect, test } from 'vitest'
import { Pool } from '../../../electron/vision/pool.ts'

/** Workers that end themselves as often as `deaths` says, then answer with the amount of frames. */
function dying(deaths: number) {
  let left = deaths
  const start = () => {
    const dies = left-- > 0
    return new Worker(
      `const { parentPort } = require('node:worker_threads')
       parentPort.on('message', ({ id, asks }) => {
         ${dies ? 'process.exit(3)' : 'parentPort.postMessage({ id, gives: asks.frames.length })'}
       })`,
      { eval: true },
    )
  }
  return new Pool({ workers: 1, start })
}

let pool: Pool
afterEach(() => pool.close())

describe('the pool of workers', () => {
  test('gives the order of a worker that died to another, pixels and all', async () => {
    pool = dying(1)
    expect(await pool.run('find', { frames: [] })).toBe(0)
  })

  test('says so when the second one dies as well, and goes on with the next order', async () => {
    pool = dying(2)
    await expect(pool.run('find', { frames: [] })).rejects.toMatchObject({ code: 'worker-died' })
    expect(await pool.run('find', { frames: [] })).toBe(0)
  })

  test('does not try again what was cancelled', async () => {
    pool = dying(0)
    const controller = new AbortController()
    const asked = pool.run('find', { frames: [] }, controller.signal)
    controller.abort()
    await expect(asked).rejects.toMatchObject({ code: 'cancelled' })
  })
})
