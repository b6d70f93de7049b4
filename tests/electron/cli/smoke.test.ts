import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'
import { expect, it } from 'vitest'

const start = join(import.meta.dirname, '../../../electron/start.mjs')
const leftOver = () => readdirSync(tmpdir()).filter(name => name.startsWith('whorl-smoke-'))

async function smoke(env: NodeJS.ProcessEnv = {}) {
  const child = spawn(process.execPath, [start, '--smoke'], {
    env: { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '', ...env },
  })
  const [out, err, [code]] = await Promise.all([text(child.stdout), text(child.stderr), once(child, 'close')])
  return { code, out, err }
}

const withoutWindow = process.platform === 'linux'
if (!withoutWindow)
  console.log('Only Linux can be without a display: the check without a window was NOT tried.')

it.runIf(withoutWindow)('opens without a window, reads a sample clip and ends with 0', async () => {
  const before = leftOver()
  const { code, out, err } = await smoke()
  expect(err).toBe('')
  expect(out).toMatch(/^Whorl opens and reads: topspin-240-c\.mp4 turns at \d+ rpm \(truth \d+\)\.\n$/)
  expect(code).toBe(0)
  expect(leftOver()).toEqual(before)
})

it.runIf(withoutWindow)('ends with 1 and says why where something is missing', async () => {
  const { code, out, err } = await smoke({ WHORL_FFMPEG: 'system', PATH: '' })
  expect([code, out]).toEqual([1, ''])
  expect(err).toContain('cannot be read: ffmpeg')
})
