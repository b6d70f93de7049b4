import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { addresses, headers } from '../../core/contract/bridge.ts'
import { type Problem, WhorlError } from '../../core/contract/problem.ts'
import { startLoopback } from '../loopback/loopback.ts'
import { openHost } from '../service/open-host.ts'
import { pageFilesIn } from '../service/page-files.ts'
import { places } from '../service/places.ts'
import { type Ask, readOneSample } from '../service/smoke.ts'
import { exitCodes } from './failure.ts'
import type { World } from './world.ts'

/** Serves the app on a workspace of its own, comes in as a browser does, reads one sample clip and ends. */
export async function smokeApp(world: World): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'whorl-smoke-'))
  const host = openHost({
    workspaceFile: join(folder, 'workspace.sqlite'),
    shell: 'loopback',
    folders: [places.samples],
    pick: null,
  })
  try {
    const server = await startLoopback(host, { page: pageFilesIn(places.page) })
    try {
      world.out(`${await readOneSample(await comeIn(server.address, world.signal))}\n`)
      return exitCodes.fine
    } finally {
      await server.close()
    }
  } finally {
    await host.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

/** What a browser does with the secret address: takes the cookie, loads the page and its script, then asks. */
async function comeIn(address: string, signal: AbortSignal): Promise<Ask> {
  const { origin } = new URL(address)
  const entered = await fetch(address, { redirect: 'manual', signal })
  const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? ''
  const loaded = async (path: string) => {
    const answer = await fetch(origin + path, { headers: { cookie }, signal })
    if (!answer.ok) throw new WhorlError('smoke-failed', { what: `${path} answers ${answer.status}` })
    return answer.text()
  }
  const script = /src="\.?(\/[^"]+\.js)"/.exec(await loaded('/'))?.[1]
  if (script === undefined) throw new WhorlError('smoke-failed', { what: 'the page has no script' })
  await loaded(script)
  return async (name, input) => {
    const answer = await fetch(origin + addresses.call(name), {
      method: 'POST',
      headers: { cookie, origin, [headers.callId]: 'smoke' },
      body: JSON.stringify(input),
      signal,
    })
    if (answer.ok) return answer.json()
    const { message }: Problem = await answer.json()
    throw new WhorlError('smoke-failed', { what: `${name} says ${message}` })
  }
}
