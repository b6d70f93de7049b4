import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { expect, it, onTestFinished } from 'vitest'
import { withinWork } from './hostile/within-work.ts'

const never = new Promise<never>(() => {})
/** A program that does what it is told until the test is over. */
function program(words: string): void {
  const child = spawn(process.execPath, ['-e', words], { stdio: 'ignore' })
  onTestFinished(async () => {
    child.kill('SIGKILL')
    await once(child, 'exit')
  })
}

it('a job that ends gives what it gives, and the work of the programs that it ran', async () => {
  const busy = spawn(process.execPath, ['-e', 'while (process.cpuUsage().user < 5e5);'], { stdio: 'ignore' })
  const job = once(busy, 'exit').then(([code]) => code as number)
  const { outcome, processorSeconds } = await withinWork(job, { processorSeconds: 600, idleSeconds: 600 })
  expect(outcome).toBe(0)
  expect(processorSeconds).toBeGreaterThan(0.5)
})
it('a program that works without end is seen by its processor time', async () => {
  program('for (;;);')
  const { outcome, processorSeconds } = await withinWork(never, { processorSeconds: 1, idleSeconds: 600 })
  expect(outcome).toBe('works on and on')
  expect(processorSeconds).toBeGreaterThan(1)
})
it('a job that waits for what never comes is seen by the rest of all', async () => {
  program('setTimeout(() => {}, 1e9)')
  const { outcome } = await withinWork(never, { processorSeconds: 600, idleSeconds: 1 })
  expect(outcome).toBe('hangs')
})
