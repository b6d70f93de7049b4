import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { type Problem, problemOf } from '../../../core/contract/problem.ts'
import { placeOfString } from '../../../electron/export/postgres-place.ts'
import { createMedia } from '../../../electron/media/create-media.ts'
import type { Answer } from '../../../electron/queue/answer.ts'
import { type ClipQueue, openQueue, type Put } from '../../../electron/queue/queue.ts'
import { queueAnswers, queueState } from '../../../electron/queue/state.ts'
import { work } from '../../../electron/queue/work.ts'
import type { Vision } from '../../../electron/vision/vision.ts'
import { said } from '../cli/stand-in-world.ts'
import { type PostgresServer, postgresServer } from '../export/postgres-server.ts'
import { openService } from '../service/open-service.ts'
import { rejectedBy } from '../store/temporary.ts'
import { asked, askedLittle, sample, variation } from './queue-clips.ts'

const folder = mkdtempSync(join(tmpdir(), 'whorl-queue-'))
let server: PostgresServer
beforeAll(async () => {
  server = await postgresServer()
})
const open: ClipQueue[] = []
afterEach(async () => {
  for (const queue of open.splice(0)) await queue.close()
})
afterAll(async () => {
  await server?.close()
  rmSync(folder, { recursive: true, force: true })
})

async function queueAt(url: string): Promise<ClipQueue> {
  const queue = await openQueue(url, { supervise: false })
  open.push(queue)
  return queue
}
const clip = (change: Partial<Put> = {}): Put => ({
  path: '/clips/drive 1.mp4',
  sha256: 'ab'.repeat(32),
  bytes: 1000,
  question: { captureFps: 240, plausible: { maxRpm: 3000 } },
  timeLimitSeconds: 600,
  ...change,
})
const answerOf = (message: string): Problem => ({ schema: 'whorl.error/1', code: 'x', message, hint: '' })
const answersAt = async (url: string) => {
  const all: Answer[] = []
  for await (const answer of queueAnswers(url)) all.push(answer)
  return all
}
const counts = async (url: string) => {
  const { waiting, reading, read, failed } = await queueState(url)
  return { waiting, reading, read, failed }
}

describe('clips on a queue', () => {
  it('are known by contents and question: put twice they are one, with another question another', async () => {
    const { url } = await server.newDatabase()
    const queue = await queueAt(url)
    await queue.put(clip())
    await queue.put(clip({ path: '/moved/drive 1.mp4' }))
    await queue.put(clip({ question: { captureFps: 120, plausible: {} } }))
    expect(await counts(url)).toMatchObject({ waiting: 2 })
    const first = await queue.take()
    expect(first).toMatchObject(clip({ path: '/moved/drive 1.mp4' }))
    await queue.answer(first!, answerOf('one'))
    await queue.put(clip())
    expect(await counts(url)).toEqual({ waiting: 1, reading: 0, read: 1, failed: 0 })
  })

  it('are answered once, also when the first reader is given up and answers after all', async () => {
    const { url } = await server.newDatabase()
    const [slow, quick] = [await queueAt(url), await queueAt(url)]
    await slow.put(clip())
    const held = await slow.take()
    await quick.giveBackOfTheGone()
    expect(await counts(url)).toMatchObject({ reading: 1 })
    await server.query(
      `SELECT pg_terminate_backend(pid) FROM pg_locks WHERE locktype = 'advisory' AND objid = 1
       AND database = (SELECT oid FROM pg_database WHERE datname = '${new URL(url).pathname.slice(1).replace('%20', ' ')}')`,
    )
    await expect
      .poll(async () => {
        await quick.giveBackOfTheGone()
        return (await queueState(url)).clips[0]
      }, patient)
      .toMatchObject({ state: 'waiting', worker: null, said: expect.stringContaining('ended while it read') })
    const again = await eventually(() => quick.take())
    expect(again.id).toBe(held!.id)
    await slow.answer(held!, answerOf('from the slow one'))
    await quick.answer(again, answerOf('from the quick one'))
    expect(await answersAt(url)).toEqual([answerOf('from the slow one')])
    expect(await counts(url)).toEqual({ waiting: 0, reading: 0, read: 1, failed: 0 })
    expect(await quick.isEmpty()).toBe(true)
  })

  it('fail with the last reason after six attempts, and begin anew when they are put again', async () => {
    const { url, query } = await server.newDatabase()
    const queue = await queueAt(url)
    await queue.put(clip())
    for (let attempt = 1; attempt <= 6; attempt++) {
      // The pause before the next attempt is pg-boss's affair; here it is over.
      await query(`UPDATE whorl_queue.job SET start_after = now() - interval '1 minute'`)
      await queue.giveBack((await queue.take())!, `reason ${attempt}`)
    }
    const { clips } = await queueState(url)
    expect(clips).toMatchObject([{ state: 'failed', attempts: 6, said: 'reason 6' }])
    expect(await queue.isEmpty()).toBe(true)
    await queue.put(clip())
    expect((await queueState(url)).clips).toMatchObject([{ state: 'waiting', attempts: 0, said: '' }])
  })

  it('begin anew when they are put again and their answer has no flights beside it, as the first tables had none', async () => {
    const { url, query } = await server.newDatabase()
    const queue = await queueAt(url)
    await queue.put(clip())
    await queue.answer((await queue.take())!, answerOf('one'))
    await query('ALTER TABLE whorl_queue.whorl_clip DROP COLUMN flights')
    const later = await queueAt(url)
    expect(await counts(url)).toMatchObject({ waiting: 0, read: 1 })
    await later.put(clip())
    expect(await counts(url)).toMatchObject({ waiting: 1, read: 0 })
    await later.answer((await later.take())!, answerOf('two'))
    await later.put(clip())
    expect(await answersAt(url)).toEqual([answerOf('two')])
    expect(await counts(url)).toMatchObject({ waiting: 0, read: 1 })
  })

  it('go back when they are not read within their time', async () => {
    const { url } = await server.newDatabase()
    const queue = await queueAt(url)
    const path = variation(join(folder, 'endless.mp4'), 90)
    await said(['read', '--queue', url, path, '--time-limit', '1', ...asked])
    const stop = new AbortController()
    const media = createMedia()
    // Eyes that never see anything.
    const vision: Vision = {
      readClip: (_, __, job) =>
        new Promise((_resolve, reject) => {
          job?.signal?.addEventListener('abort', () => reject(new Error('stopped')))
        }),
      close: async () => {},
    }
    const troubles: unknown[] = []
    await work(
      queue,
      { media, vision },
      {
        folders: [],
        untilEmpty: false,
        signal: stop.signal,
        answered() {},
        progress() {},
        trouble(thrown) {
          troubles.push(thrown)
          stop.abort()
        },
      },
    )
    await media.close()
    expect(problemOf(troubles[0])).toMatchObject({ code: 'queue-too-late' })
    expect((await queueState(url)).clips).toMatchObject([
      { state: 'waiting', said: expect.stringContaining('was not read within 1 s') },
    ])
  })
})

describe('whorl work', () => {
  it('finds a clip by its contents in its own folder, and gives one that it lacks back with what it expected', async () => {
    const { url, query } = await server.newDatabase()
    const [shared, own] = [join(folder, 'shared'), join(folder, 'own')]
    for (const each of [shared, own]) mkdirSync(each)
    const moved = variation(join(shared, 'moved.mp4'), 1)
    const gone = variation(join(shared, 'gone.mp4'), 2)
    const text = join(shared, 'empty.mp4')
    writeFileSync(text, 'x')
    const put = await said(['read', '--queue', url, moved, gone, text, ...askedLittle])
    expect(put.code).toBe(1)
    expect(put.err).toContain('is not a clip that can be measured')
    expect(put.out).toContain('2 waiting')

    // A file of the same name and size is there, but is not the clip.
    renameSync(moved, join(own, 'another name.mp4'))
    rmSync(gone)
    variation(join(own, 'gone.mp4'), 3)
    await query(`UPDATE whorl_queue.job SET retry_limit = 0 WHERE id IN
      (SELECT id FROM whorl_queue.whorl_clip WHERE path LIKE '%gone.mp4')`)
    const { code, out, err } = await said(['work', url, '--folder', own, '--until-empty'])
    expect(code).toBe(0)
    expect(out).toMatch(/moved\.mp4\nno figure/)
    expect(err).toMatch(
      /gone\.mp4 \(SHA-256 [0-9a-f]{12}…\) was not found on .*looked for at .*shared.gone\.mp4, .*own/,
    )
    const told = await said(['queue', url])
    expect(told.out).toContain('0 waiting, 0 being read, 1 read, 1 failed')
    expect(told.out).toContain('gone.mp4 failed after 1 attempts: gone.mp4 (SHA-256')
  })

  it('stores what is wrong with a clip as its answer, in the words of whorl read', async () => {
    const { url } = await server.newDatabase()
    // A header and nothing behind it.
    const cut = join(folder, 'cut.mp4')
    writeFileSync(cut, readFileSync(sample).subarray(0, 32))
    await said(['read', '--queue', url, cut])
    await said(['work', url, '--until-empty'])
    const results = await said(['queue', url, '--results', '--json'])
    expect(results.out).toBe((await said(['read', cut, '--json'])).out)
    expect(JSON.parse(results.out).schema).toBe('whorl.error/1')
  })

  it('does not answer for another method than its own', async () => {
    const { url, query } = await server.newDatabase()
    await said(['read', '--queue', url, sample, ...asked])
    await query(
      `UPDATE whorl_queue.whorl_clip SET question = '{"captureFps":120,"plausible":{}}';
       UPDATE whorl_queue.job SET retry_limit = 0`,
    )
    const { err } = await said(['work', url, '--until-empty'])
    expect(err).toContain('by another method than this one')
    expect(await counts(url)).toMatchObject({ read: 0, failed: 1 })
  })
})

describe('the app', () => {
  it('looks at a queue by its server’s name alone once it was told the password, and keeps no password', async () => {
    const { url } = await server.newDatabase()
    await (await queueAt(url)).put(clip())
    const { call, workspace } = openService()
    expect(await call('sharedQueue.look', { server: null })).toBeNull()
    await call('sharedQueue.look', { server: url })
    expect(await call('sharedQueue.look', { server: null })).toEqual(await queueState(url))
    expect(workspace.setting('shared-queue')).toBe(placeOfString(url))
    const bytes = ['', '-wal'].map(ending => readFileSync(`${workspace.file}${ending}`, 'latin1')).join('')
    expect(bytes).not.toContain('only-for-tests')
  })
})

describe('a server', () => {
  it('is left alone by a look, and the queue on it is empty', async () => {
    const { url, query } = await server.newDatabase()
    expect((await said(['queue', url])).out).toContain('0 waiting, 0 being read, 0 read, 0 failed')
    expect((await said(['queue', url, '--results', '--json'])).out).toBe('')
    expect(await query(`SELECT 1 FROM pg_namespace WHERE nspname = 'whorl_queue'`)).toEqual([])
  })

  it('gets its tables once, however many begin at once', async () => {
    const { url } = await server.newDatabase()
    const queues = await Promise.all([queueAt(url), queueAt(url), queueAt(url)])
    await queues[0]!.put(clip())
    expect(await queues[2]!.take()).not.toBeNull()
  })

  it.each([
    ['with a wrong password', (url: string) => url.replace(/:[^:@]+@/, ':wrong-Secret@'), 'did not accept'],
    ['that is away', (url: string) => url.replace(/:\d+\//, ':9/'), 'does not answer'],
    ['that is none', () => 'postgres://who:wrong-Secret@[', 'no connection string'],
  ])('%s is told without its password', async (_, change, words) => {
    const url = change(server.url)
    for (const given of [
      ['work', url],
      ['queue', url],
      ['read', '--queue', url, sample],
    ]) {
      const { code, err, out } = await said(given)
      expect(code).toBe(1)
      expect(err).toContain(words)
      expect(err + out).not.toMatch(/only-for-tests|wrong-Secret/)
    }
    const thrown = await rejectedBy(() => openQueue(url, { supervise: false }))
    expect((thrown as Error).stack).not.toMatch(/only-for-tests|wrong-Secret/)
  })

  it.each([
    ['a workspace beside a queue', ['--workspace', 'w.sqlite']],
    ['a time limit of a day', ['--time-limit', '86400s']],
  ])('does not go with %s', async (_, words) => {
    expect((await said(['read', '--queue', server.url, sample, ...words])).code).toBe(2)
  })
})

const patient = { timeout: 60_000, interval: 100 }

/** What comes once the server has done with a pause. */
async function eventually<T>(ask: () => Promise<T | null>): Promise<T> {
  let found: T | null = null
  await expect
    .poll(async () => {
      found = await ask()
      return found
    }, patient)
    .not.toBeNull()
  return found!
}
