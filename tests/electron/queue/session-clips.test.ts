import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest'
import { placeOfString } from '../../../electron/export/postgres-place.ts'
import { openQueue } from '../../../electron/queue/queue.ts'
import { queueState } from '../../../electron/queue/state.ts'
import { work } from '../../../electron/queue/work.ts'
import { knownServers } from '../../../electron/service/known-servers.ts'
import { openHost } from '../../../electron/service/open-host.ts'
import { createService } from '../../../electron/service/service.ts'
import { createTaking } from '../../../electron/service/taking.ts'
import { said } from '../cli/stand-in-world.ts'
import { type PostgresServer, postgresServer } from '../export/postgres-server.ts'
import { type OpenService, openService } from '../service/open-service.ts'
import { sessionDetails } from '../service/stand-in-host.ts'
import { sample } from './queue-clips.ts'

const closing: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const close of closing.splice(0)) await close()
})
let server: PostgresServer
beforeAll(async () => {
  server = await postgresServer()
})
afterAll(async () => {
  await server?.close()
})

/** A session of clips, each with the words in it that say what eyes see in it (stand-in-vision.ts). */
async function sessionOf(...texts: string[]) {
  const { url, query } = await server.newDatabase()
  const open = openService()
  const { id: sessionId } = await open.session()
  const paths = texts.map((text, i) => open.file(`drive ${i + 1}.mp4`, text))
  const { clips } = await open.call('clips.add', { sessionId, paths })
  const put = () => open.call('sharedQueue.put', { sessionId, server: url })
  const take = () => open.call('sharedQueue.take', { sessionId, server: null })
  return { ...open, url, query, sessionId, clipIds: clips.map(({ id }) => id), put, take }
}

/** What `whorl work --until-empty` does, with the eyes of a test. */
async function otherMachine(url: string, { parts }: OpenService) {
  const queue = await openQueue(url, { supervise: false })
  try {
    await work(queue, parts, {
      folders: [],
      untilEmpty: true,
      signal: new AbortController().signal,
      answered() {},
      trouble(thrown) {
        throw thrown
      },
      progress() {},
    })
  } finally {
    await queue.close()
  }
}

/** Hits without what is by chance: their ids and the clip's. */
async function hitsOf({ call, workspace }: OpenService, clipId: string) {
  const rows = await call('hits.list', { clipId })
  return rows.map(({ hitId }) => {
    const { row, marks, surface } = workspace.hit(hitId)
    const { window, reading, provenance, stale, verdict } = row
    return {
      window,
      reading,
      provenance,
      stale,
      verdict,
      marks,
      surface,
      asked: workspace.surface(hitId)?.asked,
    }
  })
}
const statesOf = ({ entries }: { entries: { state: string }[] }) => entries.map(({ state }) => state)

describe('the clips of a session on a server’s queue', () => {
  it('come back as hits, as if they had been read here, each once', async () => {
    const texts = ['clip', 'clip with two', 'clip with none']
    const open = await sessionOf(...texts)
    const [here, two, none] = open.clipIds as [string, string, string]
    const putState = await open.put()
    const place = placeOfString(open.url)
    expect(putState.entries.map(({ state, said }) => [state, said])).toEqual(
      Array(3).fill(['elsewhere', place]),
    )
    // Nothing was read yet, and nothing comes.
    expect(statesOf(await open.take())).toEqual(Array(3).fill('elsewhere'))

    await otherMachine(open.url, openService())
    const { entries } = await open.take()
    expect(entries.map(({ state, said }) => [state, said])).toEqual([
      ['done', expect.stringMatching(/^One flight found, read\. Read by .+ \(\d+\)\.$/)],
      ['done', expect.stringContaining('2 flights found, read. Read by ')],
      ['done', expect.stringContaining('No ball was seen flying through the picture.')],
    ])
    const local = openService()
    const { id: sessionId } = await local.session()
    const paths = texts.map((text, i) => local.file(`drive ${i + 1}.mp4`, text))
    const { clips } = await local.call('clips.add', { sessionId, paths })
    for (const { id } of clips) await local.call('clips.read', { clipId: id })
    for (const [i, clipId] of [here, two, none].entries())
      expect(await hitsOf(open, clipId)).toEqual(await hitsOf(local, clips[i]!.id))
    expect(await hitsOf(open, two)).toHaveLength(2)

    await open.take()
    await open.call('clips.read', { clipId: two })
    expect(await hitsOf(open, two)).toHaveLength(2)
    // What another machine read is kept as if it had been read here: nothing is read again.
    expect(open.read).toEqual([])
  })

  it('are those without a hit that wait nowhere, and are not read here meanwhile', async () => {
    const open = await sessionOf('clip 1', 'clip 2', 'clip 3')
    const [marked, read] = open.clipIds as [string, string, string]
    await open.call('hits.create', { clipId: marked, window: { fromFrame: 1, toFrame: 5 } })
    await open.call('clips.read', { clipId: read })
    await open.put()
    await open.put()
    expect(await queueState(open.url)).toMatchObject({
      waiting: 1,
      clips: [{ path: expect.stringContaining('3') }],
    })
    await open.call('queue.start', { sessionId: open.sessionId })
    await open.call('queue.cancel', { sessionId: open.sessionId })
    expect(statesOf(await open.call('queue.state', { sessionId: open.sessionId }))).toEqual(['elsewhere'])
    expect(open.read).toHaveLength(1)
    // Not waited for any longer, it can be read here.
    expect(await open.call('sharedQueue.leave', { sessionId: open.sessionId })).toEqual({ entries: [] })
    await open.call('queue.start', { sessionId: open.sessionId })
    await expect.poll(() => open.read.length, { timeout: 20_000 }).toBe(2)
  })

  it('whose capture rate nobody knows stay here', async () => {
    const open = await sessionOf('clip')
    const { camera, ...details } = open.workspace.session(open.sessionId)
    open.workspace.updateSession(open.sessionId, { ...details, camera: { ...camera, captureFps: null } })
    const { probe } = open.workspace.clip(open.clipIds[0]!)
    const capture = { fps: null, source: 'unknown', relativeUncertainty: null } as const
    open.workspace.setProbe(open.clipIds[0]!, {
      path: probe!.path,
      probe: { ...probe!, capture },
      problem: null,
      timestampsSeconds: [],
    })
    expect(await open.put()).toEqual({ entries: [] })
    expect(await queueState(open.url)).toMatchObject({ waiting: 0 })
  })

  it('do not bring a figure that was read with another camera than the session has now', async () => {
    const open = await sessionOf('clip')
    await open.put()
    await otherMachine(open.url, openService())
    const { camera, ...details } = open.workspace.session(open.sessionId)
    const changed = { ...details, camera: { ...camera, exposureSeconds: 0.001 } }
    await open.call('sessions.update', { sessionId: open.sessionId, details: changed })
    const { entries } = await open.take()
    expect(entries).toMatchObject([
      { state: 'failed', said: expect.stringContaining('of camera and ball now') },
    ])
    expect(await hitsOf(open, open.clipIds[0]!)).toEqual([])
    await open.put()
    await otherMachine(open.url, openService())
    expect(statesOf(await open.take())).toEqual(['done'])
    expect(await hitsOf(open, open.clipIds[0]!)).toHaveLength(1)
  })

  it.each([
    ['words', `answer = '{"schema":"whorl.reading/1","readings":"many"}'`],
    ['a reading of another clip', `answer = jsonb_set(answer::jsonb, '{clip,sha256}', '"ab"')::json`],
    ['another method', `answer = jsonb_set(answer::jsonb, '{software,methodVersion}', '"0"')::json`],
    ['a frame behind the end', `flights = replace(flights::text, '"frame":20', '"frame":60')::json`],
    ['a flight without its reading', `answer = jsonb_set(answer::jsonb, '{readings}', '[]')::json`],
    ['no flights', 'flights = NULL'],
  ])('are failed by %s in the place of an answer, and no hit is made', async (_, change) => {
    const open = await sessionOf('clip')
    await open.put()
    await otherMachine(open.url, openService())
    await open.query(`UPDATE whorl_queue.whorl_clip SET ${change}`)
    const { entries } = await open.take()
    expect(entries).toMatchObject([
      { state: 'failed', said: expect.stringContaining('no reading of this clip') },
    ])
    expect(await hitsOf(open, open.clipIds[0]!)).toEqual([])
  })

  it('say what is wrong with them, in the words of the machine that tried', async () => {
    const open = await sessionOf('clip 1', 'clip 2')
    await open.put()
    const problem = {
      schema: 'whorl.error/1',
      code: 'clip-no-frames',
      message: 'It is empty.',
      hint: 'Film.',
    }
    await open.query(`UPDATE whorl_queue.whorl_clip SET answer = '${JSON.stringify(problem)}' WHERE place = 1;
      UPDATE whorl_queue.job SET state = 'failed', output = '{"message":"It was not found on court-3."}'
        WHERE id = (SELECT id FROM whorl_queue.whorl_clip WHERE place = 2)`)
    const { entries } = await open.take()
    expect(entries.map(({ state, said }) => [state, said])).toEqual([
      ['failed', 'It is empty. Film.'],
      ['failed', 'It was not found on court-3.'],
    ])
  })

  it('need a server, whose name alone is kept', async () => {
    const open = await sessionOf('clip')
    const { sessionId, call } = open
    await expect(call('sharedQueue.put', { sessionId, server: null })).rejects.toMatchObject({
      code: 'queue-no-server',
    })
    expect(await call('sharedQueue.place', {})).toBeNull()
    await open.put()
    expect(await call('sharedQueue.place', {})).toBe(placeOfString(open.url))
    const { file } = open.workspace
    expect(['', '-wal'].map(end => readFileSync(`${file}${end}`, 'latin1')).join('')).not.toContain(
      'only-for-tests',
    )
  })

  it('are told that the server is away, and stay where they are', async () => {
    const open = await sessionOf('clip')
    await open.put()
    open.workspace.putElsewhere(open.clipIds[0]!, 'postgres://127.0.0.1:9/clips')
    await expect(open.take()).rejects.toMatchObject({ code: 'server-away' })
    expect(statesOf(await open.call('queue.state', { sessionId: open.sessionId }))).toEqual(['elsewhere'])
  })
})

describe('what other machines read comes into the workspace by itself', () => {
  const stateIn = ({ workspace }: OpenService) => workspace.queued().map(({ state }) => state)

  it('of every session, each clip once, whatever is looked at', async () => {
    const open = await sessionOf('clip', 'clip with two')
    const { id: otherId } = await open.session()
    const path = open.file('other drive.mp4', 'clip 3')
    await open.call('clips.add', { sessionId: otherId, paths: [path] })
    open.parts.taking.goOn()
    await open.put()
    await open.call('sharedQueue.put', { sessionId: otherId, server: open.url })
    await otherMachine(open.url, openService())
    await expect.poll(() => stateIn(open)).toEqual(['done', 'done', 'done'])
    expect(await open.call('hits.list', { sessionId: open.sessionId })).toHaveLength(3)
    expect(await open.call('hits.list', { sessionId: otherId })).toHaveLength(1)
    expect(open.read).toEqual([])
    expect(open.events).toContainEqual({ kind: 'changed', what: 'queue', id: otherId })
  })

  it('also after a kill between the hits and the word that the clip is done: the hits are there once', async () => {
    const open = await sessionOf('clip with two')
    await open.put()
    await otherMachine(open.url, openService())
    await open.take()
    // As such a kill leaves it.
    open.workspace.setQueued(open.clipIds[0]!, 'elsewhere', placeOfString(open.url))
    open.parts.taking.goOn()
    await expect.poll(() => stateIn(open)).toEqual(['done'])
    expect(await open.call('hits.list', {})).toHaveLength(2)
  })

  it('though another server that clips wait for is away, which is told and asked again by itself', async () => {
    const open = await sessionOf('clip', 'clip with two')
    const [away, here] = open.clipIds as [string, string]
    await open.put()
    open.workspace.putElsewhere(away, 'postgres://127.0.0.1:9/clips')
    await otherMachine(open.url, openService())
    open.parts.taking.goOn()
    const stateOf = (clipId: string) => open.workspace.queued().find(one => one.clipId === clipId)?.state
    await expect.poll(() => stateOf(here)).toBe('done')
    const trouble = () => open.call('sharedQueue.trouble', { sessionId: open.sessionId })
    await expect.poll(trouble).toMatchObject({ code: 'server-away' })
    expect(stateOf(away)).toBe('elsewhere')
    // Back again: nobody has to say so.
    open.workspace.putElsewhere(away, placeOfString(open.url))
    await expect.poll(() => stateOf(away)).toBe('done')
    await expect.poll(trouble).toBeNull()
  })

  it('once the person has named a server whose password was forgotten with the program’s end', async () => {
    const open = await sessionOf('clip')
    await open.put()
    await otherMachine(open.url, openService())
    // A program that was started anew knows the place alone.
    const { service, taking, asked } = anew(open)
    taking.goOn()
    const { sessionId } = open
    const context = { signal: new AbortController().signal, progress: () => {} }
    await expect.poll(() => taking.problem(sessionId)?.code).toMatch(/^server-/)
    const first = asked()
    // It is not tried again and again: an account may be locked by that.
    await new Promise(done => setTimeout(done, 200))
    expect(asked()).toBe(first)
    await service['sharedQueue.take']({ sessionId, server: open.url }, context)
    expect(stateIn(open)).toEqual(['done'])
    expect(taking.problem(sessionId)).toBeNull()
  })
})

/** The service as a program that was started anew has it, with how often it asked for a server. */
function anew({ parts }: OpenService) {
  const servers = knownServers()
  const wholeOf = vi.spyOn(servers, 'wholeOf')
  const taking = createTaking({ ...parts, servers, everyMilliseconds: 20 })
  closing.push(taking.close)
  return {
    service: createService({ ...parts, taking, folders: null }, servers),
    taking,
    asked: () => wholeOf.mock.calls.length,
  }
}

it('whorl work reads a clip of the app with real eyes as the app itself does', async () => {
  const { url } = await server.newDatabase()
  const folder = mkdtempSync(join(tmpdir(), 'whorl-app-queue-'))
  const path = join(folder, 'drive.mp4')
  copyFileSync(sample, path)
  const context = { signal: new AbortController().signal, progress: () => {} }
  const readings = []
  for (const isElsewhere of [false, true]) {
    const workspaceFile = join(folder, `${isElsewhere}.sqlite`)
    const { service, close } = openHost({ workspaceFile, shell: 'loopback', folders: null, pick: null })
    const { id: sessionId } = await service['sessions.create']({ details: sessionDetails }, context)
    const { clips } = await service['clips.add']({ sessionId, paths: [path] }, context)
    if (isElsewhere) {
      await service['sharedQueue.put']({ sessionId, server: url }, context)
      expect((await said(['work', url, '--until-empty'])).err).toBe('')
      await service['sharedQueue.take']({ sessionId, server: null }, context)
    } else await service['clips.read']({ clipId: clips[0]!.id }, context)
    const [hit] = await service['hits.list']({ sessionId }, context)
    const { row, marks, surface } = await service['hits.open']({ hitId: hit!.hitId }, context)
    readings.push({ reading: row.reading, marks, surface })
    await close()
  }
  expect(readings[1]).toEqual(readings[0])
  expect(readings[0]!.reading!.rpm).toBeGreaterThan(0)
  rmSync(folder, { recursive: true })
})
