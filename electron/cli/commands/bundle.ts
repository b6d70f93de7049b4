import { resolve } from 'node:path'
import { WhorlError } from '../../../core/contract/problem.ts'
import { nearNames } from '../../../core/ratings/near-names.ts'
import { ownWorkspace } from '../../service/data-folder.ts'
import { command, json } from '../command.ts'
import { text } from '../values.ts'
import { type Ask, existing, withHost } from '../with-host.ts'

export default command({
  says: 'Packs all that a paddle’s figures rest on into one zip: marks, readings, timing, budget, pictures.',
  takes: 'PADDLE (or none with --session)',
  words: { least: 0, most: 1 },
  options: {
    session: { takes: 'DAY', says: 'a session instead, by its day as 2026-05-31, or its id', read: text },
    out: { takes: 'FILE', says: 'the .zip to write; evidence.zip unless said', read: text },
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    json,
  },
  example: 'whorl bundle "Heron 14" --out heron-14.zip',
  async run({ words: [name], options }, world) {
    if ((name === undefined) === (options.session === undefined))
      throw new WhorlError('usage', {
        what: 'Expected one paddle or one session.',
        hint: 'Name a paddle, or a session’s day by --session.',
      })
    const path = resolve(options.out ?? 'evidence.zip')
    if (!path.toLowerCase().endsWith('.zip'))
      throw new WhorlError('usage', {
        what: `--out got “${options.out}”.`,
        hint: 'It takes a name that ends in .zip.',
      })
    const file = existing(options.workspace ? resolve(options.workspace) : ownWorkspace(world.env))
    const made = await withHost(file, world, async ask => {
      const of = name === undefined ? await sessionOn(ask, options.session!) : await paddleNamed(ask, name)
      return ask('bundle.make', { ...of, path })
    })
    world.out(
      options.json
        ? `${JSON.stringify({ schema: 'whorl.bundled/1', ...made })}\n`
        : `Packed into ${made.path} (${Math.ceil(made.bytes / 1000)} kB). whorl verify checks it.\n`,
    )
    return 0
  },
})

async function paddleNamed(ask: Ask, name: string) {
  const paddles = await ask('paddles.list', {})
  const paddle = paddles.find(one => one.name === name)
  if (paddle) return { kind: 'paddle' as const, id: paddle.id }
  const near = nearNames(
    name,
    paddles.map(one => one.name),
  )
  throw new WhorlError('paddle-unknown', { name, near: near.map(one => `“${one}”`).join(' or ') })
}

async function sessionOn(ask: Ask, day: string) {
  const sessions = (await ask('sessions.list', {})).filter(one => one.day === day || one.id === day)
  if (sessions.length === 1) return { kind: 'session' as const, id: sessions[0]!.id }
  const some = sessions.map(one => `${one.id} (${one.place || one.camera.name})`).join(', ')
  throw new WhorlError('usage', {
    what:
      sessions.length === 0
        ? `There is no session on ${day}.`
        : `There are ${sessions.length} sessions on ${day}.`,
    hint:
      sessions.length === 0
        ? 'Sessions are named by their day, as 2026-05-31.'
        : `Name one by its id: ${some}.`,
  })
}
