import { afterEach, describe, expect, test, vi } from 'vitest'
import { Children } from '../../../electron/media/children.ts'
import { collect } from '../../../electron/media/collect.ts'

afterEach(() => vi.useRealTimers())
const children = new Children()
const shell = (words: string) => collect(children, '/bin/sh', ['-c', words])

describe('a program that is run to its end', () => {
  test('gives what it wrote, and the last of what it complained about', async () => {
    const { ok, broke, text, complaint } = await shell('echo one; echo two; seq 20 >&2; exit 3')
    expect([ok, broke, text]).toEqual([false, false, 'one\ntwo\n'])
    expect(complaint).toBe('13; 14; 15; 16; 17; 18; 19; 20')
  })

  test('that cannot be started ends with the reason, and nothing is thrown', async () => {
    const ending = await collect(children, '/nowhere/at-all', [])
    expect(ending).toMatchObject({ ok: false, broke: true, complaint: expect.stringContaining('ENOENT') })
  })

  test('that is ended by a signal says by which', async () => {
    expect(await shell('kill -ABRT $$')).toMatchObject({ broke: true, complaint: 'it was ended by SIGABRT' })
  })

  test('that writes without end is stopped', async () => {
    const ending = await shell('exec yes')
    expect(ending).toMatchObject({ ok: false, broke: true, complaint: 'its answer is longer than 64 MB' })
    expect(ending.text.length).toBeLessThanOrEqual(64 * 1024 * 1024)
  })

  test('that says nothing for a minute is stopped', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
    const silent = shell('exec sleep 600')
    vi.advanceTimersByTime(59_000)
    expect(await Promise.race([silent, Promise.resolve('still running')])).toBe('still running')
    vi.advanceTimersByTime(2_000)
    expect(await silent).toMatchObject({ ok: false, broke: true, complaint: 'it gave no answer for 60 s' })
  })
})
