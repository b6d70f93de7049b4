import { readdirSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import type { CallChecked, CallName } from '../../../core/contract/calls.ts'
import { openHost } from '../../../electron/service/open-host.ts'
import { clickNumber, dayOfRound } from './work.ts'

/**
 * The host at one of its jobs until it is killed: `JOB PATH FIRST`. Says "begin", then the number of each
 * click that was saved (marking), of each round that it begins (export), the name of each file that was
 * opened (migration), or each clip's id when it is begun and again when it is done (reading).
 */
const [, , job, path, first] = process.argv as [string, string, string, string, string]
const say = (word: string | number) => writeSync(1, `${word}\n`)
const open = (workspaceFile: string, goesOn = false) => {
  const host = openHost({ workspaceFile, goesOn, shell: 'desktop', folders: null, pick: null })
  const ask = <N extends CallName>(name: N, input: CallChecked<N>) =>
    host.service[name](input, { signal: new AbortController().signal, progress: () => {} })
  return { host, ask }
}

say('begin')
if (job === 'marking') await mark()
if (job === 'export') await write()
if (job === 'migration') await migrate()
if (job === 'reading') await read()

async function mark(): Promise<void> {
  const { ask } = open(path)
  const { hitId } = (await ask('hits.list', {}))[0]!
  for (let number = Number(first); ; number++) {
    await ask('hits.edit', { hitId, edit: clickNumber(number) })
    say(number)
  }
}

async function write(): Promise<void> {
  const { ask } = open(join(path, 'workspace.sqlite'))
  const [session] = await ask('sessions.list', {})
  for (let round = Number(first); ; round++) {
    await ask('sessions.update', {
      sessionId: session!.id,
      details: { ...session!, day: dayOfRound(round) },
    })
    say(round)
    for (const target of ['ratings.sqlite', 'ratings.csv'])
      await ask('export.write', { target: join(path, target) })
  }
}

async function migrate(): Promise<void> {
  const files = readdirSync(path)
    .filter(name => name.endsWith('.sqlite'))
    .sort()
  for (const name of files) {
    const { host } = open(join(path, name))
    await host.close()
    say(name)
  }
}

async function read(): Promise<void> {
  const { ask, host } = open(path, true)
  const sessionId = (await ask('sessions.list', {}))[0]!.id
  const told = new Map<string, string>()
  const tell = async () => {
    for (const { clipId, state } of (await ask('queue.state', { sessionId })).entries) {
      if (state === 'waiting' || told.get(clipId) === state) continue
      told.set(clipId, state)
      say(`${state} ${clipId}`)
    }
  }
  host.bus.on(event => {
    if (event.kind === 'changed' && event.what === 'queue') void tell()
  })
  await ask('queue.start', { sessionId })
  await tell()
}
