import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'
import { setTimeout as sleep } from 'node:timers/promises'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { readingDocumentSchema } from '../../../core/contract/reading.ts'
import { sharedQueueSchema } from '../../../core/contract/shared-queue.ts'
import { queueState } from '../../../electron/queue/state.ts'
import { said } from '../cli/stand-in-world.ts'
import { type PostgresServer, postgresServer } from '../export/postgres-server.ts'
import { asked, askedLittle, variation } from './queue-clips.ts'

const launch = join(import.meta.dirname, '../../../electron/cli/launch.mjs')
const folder = mkdtempSync(join(tmpdir(), 'whorl-machines-'))
let server: PostgresServer
const workers: ChildProcess[] = []
beforeAll(async () => {
  server = await postgresServer()
})
afterAll(async () => {
  for (const worker of workers) worker.kill('SIGKILL')
  await server?.close()
  rmSync(folder, { recursive: true, force: true })
})

function startWorker(url: string) {
  const child = spawn(process.execPath, [launch, 'work', url, '--until-empty', '--json'], { cwd: folder })
  workers.push(child)
  const ended = once(child, 'close') as Promise<[number | null, NodeJS.Signals | null]>
  return { child, pid: child.pid!, out: text(child.stdout), err: text(child.stderr), ended }
}

type Worker = ReturnType<typeof startWorker>

const heldBy = async (url: string, { pid }: Worker) =>
  (await queueState(url)).clips
    .filter(({ state, worker }) => state === 'reading' && worker?.endsWith(`(${pid})`))
    .map(({ path }) => path)

/** Stops a worker in its tracks while it has clips in its hand. */
async function stopWhileReading(url: string, worker: Worker): Promise<void> {
  for (;;) {
    worker.child.kill('SIGSTOP')
    // What it had said to the server already is done after a while.
    if (
      (await heldBy(url, worker)).length > 0 &&
      (await sleep(500, true)) &&
      (await heldBy(url, worker)).length > 0
    )
      return
    worker.child.kill('SIGCONT')
    await sleep(50)
  }
}

/** What `whorl read` says of clips on one machine. */
async function readHere(clips: string[], words: string[]) {
  const { out } = await said(['read', ...clips, ...words, '--json'])
  return out
    .trimEnd()
    .split('\n')
    .map(line => readingDocumentSchema.parse(JSON.parse(line)))
}

it('has one result a clip, as whorl read gives it, though one of three workers is killed while it reads', async () => {
  const { url, query } = await server.newDatabase()
  const clips = Array.from({ length: 5 }, (_, i) => variation(join(folder, `drive ${i + 1}.mp4`), i))
  const [slow, quick] = [clips.slice(0, 1), clips.slice(1)]
  await said(['read', '--queue', url, ...slow, ...asked])
  const put = await said(['read', '--queue', url, ...quick, ...askedLittle, '--json'])
  expect(put.err).toBe('')
  expect(sharedQueueSchema.parse(JSON.parse(put.out))).toMatchObject({ waiting: 5, read: 0, failed: 0 })

  const doomed = startWorker(url)
  await stopWhileReading(url, doomed)
  const others = [startWorker(url), startWorker(url)]
  while ((await queueState(url)).read === 0) await sleep(100)
  const lost = await heldBy(url, doomed)
  expect(lost.length).toBeGreaterThan(0)
  doomed.child.kill('SIGKILL')
  expect((await doomed.ended)[1]).toBe('SIGKILL')
  for (const { ended, err } of others) {
    expect(await err).toBe('')
    expect(await ended).toEqual([0, null])
  }

  const state = sharedQueueSchema.parse(JSON.parse((await said(['queue', url, '--json'])).out))
  expect(state).toMatchObject({ waiting: 0, reading: 0, read: 5, failed: 0 })
  for (const path of lost) {
    const clip = state.clips.find(one => one.path === path)!
    expect(clip.worker).not.toContain(`(${doomed.pid})`)
    expect(clip.attempts).toBeGreaterThan(1)
  }
  expect(await query('SELECT count(*)::int AS n FROM whorl_queue.whorl_clip')).toEqual([{ n: 5 }])

  const expected = [...(await readHere(slow, asked)), ...(await readHere(quick, askedLittle))]
  expect(expected[0]!.readings[0]!.rpm).toBeGreaterThan(0)
  const results = (await said(['queue', url, '--results', '--json'])).out.trimEnd().split('\n')
  expect(results.map(line => JSON.parse(line))).toEqual(expected)
  expect(state.clips.map(({ path }) => path)).toEqual(clips)
}, 480_000)

it('shows no password in the list of processes nor in what it says', async () => {
  const { url, query } = await server.newDatabase()
  const worker = spawn(process.execPath, [launch, 'work', url], { cwd: folder })
  workers.push(worker)
  let told = ''
  for (const stream of [worker.stdout, worker.stderr])
    stream.setEncoding('utf8').on('data', (piece: string) => {
      told += piece
    })
  // It says that the server is away only after it took part.
  const present = `SELECT 1 FROM pg_stat_activity WHERE datname = current_database()
    AND application_name = 'whorl' AND query LIKE '%advisory_lock%'`
  while ((await query(present)).length === 0) await sleep(100)
  if (process.platform === 'linux')
    expect(readFileSync(`/proc/${worker.pid}/cmdline`, 'utf8')).not.toContain('only-for-tests')
  else
    console.log('Only Linux shows other processes’ words in a file: the list of processes was NOT looked at.')
  const ended = once(worker, 'close')
  await server.kill()
  while (!told.includes('does not answer')) await sleep(100)
  worker.kill('SIGINT')
  expect(await ended).toEqual([0, null])
  expect(told).not.toContain('only-for-tests')
})
