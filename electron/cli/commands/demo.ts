import { join, resolve } from 'node:path'
import type { ExportPlan, ListedHit } from '../../../core/contract/workspace.ts'
import { dataFolder } from '../../service/data-folder.ts'
import { isSample, trueRpmOf } from '../../service/sample-truth.ts'
import { command, json } from '../command.ts'
import { bandText, rpmText, table } from '../figures.ts'
import { openApp } from '../open-app.ts'
import { planTold } from '../plan-told.ts'
import { progressBar } from '../progress-bar.ts'
import { text } from '../values.ts'
import { withHost } from '../with-host.ts'
import type { World } from '../world.ts'

export default command({
  says: 'Makes a workspace from the sample clips and an invented season, reads every hit, writes a ratings database, opens the app.',
  takes: '',
  words: { least: 0, most: 0 },
  options: {
    dir: { takes: 'DIR', says: 'where workspace.sqlite and ratings.sqlite go', read: text },
    'no-open': { says: 'stop before opening the app' },
    json,
  },
  example: 'whorl demo --dir try-whorl --no-open',
  async run({ options }, world) {
    const dir = resolve(options.dir ?? join(dataFolder(world.env), 'demo'))
    const workspaceFile = join(dir, 'workspace.sqlite')
    const { hits: all, plan } = await made(workspaceFile, join(dir, 'ratings.sqlite'), world)
    const hits = all.filter(hit => isSample(hit.clipName))
    if (options.json) world.out(`${JSON.stringify(documentOf(workspaceFile, hits, plan))}\n`)
    else
      world.out(
        `${hitsTold(hits)}\n${sampleLinesTold(plan, hits)}${seasonTold(all)}Workspace: ${workspaceFile}\n`,
      )
    const isWatched = world.outIsTerminal && !world.env.CI
    if (options['no-open'] || options.json || !isWatched) return 0
    return openApp({ workspaceFile, folders: [dir] }, world)
  },
})

/** Fills the workspace and writes the ratings; a second time finds all of it there. */
async function made(workspaceFile: string, target: string, world: World) {
  const bar = progressBar(world)
  try {
    return await withHost(workspaceFile, world, async ask => {
      await ask('demo.fill', {}, bar.show)
      return { hits: await ask('hits.list', {}), plan: await ask('export.write', { target }) }
    })
  } finally {
    bar.clear()
  }
}

const byClip = (a: ListedHit, b: ListedHit) => a.clipName.localeCompare(b.clipName)

function hitsTold(hits: ListedHit[]): string {
  const rows = hits.toSorted(byClip).map(({ clipName, window, reading }) => {
    const truth = trueRpmOf(clipName, window)
    return [
      clipName,
      reading ? rpmText(reading) : '–',
      bandText(reading?.band ?? null),
      reading?.flag ?? '–',
      truth === null ? '–' : truth.toFixed(0),
    ]
  })
  return table([['clip', 'rpm', 'band (95 %)', 'flag', 'truth'], ...rows], [1, 2, 4])
}

/** What was written of the paddles that the sample clips show. */
function sampleLinesTold(plan: ExportPlan, hits: ListedHit[]): string {
  const paddles = new Set(hits.map(hit => hit.paddle))
  return planTold({ ...plan, lines: plan.lines.filter(line => paddles.has(line.paddle)) })
}

function seasonTold(all: ListedHit[]): string {
  const invented = all.filter(hit => !isSample(hit.clipName))
  const paddles = new Set(invented.map(hit => hit.paddle)).size
  return `Beside them an invented season, written likewise: ${paddles} paddles, ${invented.length} hits with simulated marks and no clips.\n`
}

const documentOf = (workspace: string, hits: ListedHit[], plan: ExportPlan) => ({
  schema: 'whorl.demo-run/1',
  workspace,
  ratings: plan.target,
  hits: hits.toSorted(byClip).map(({ clipName, window, reading, verdict, paddle, setUp }) => ({
    clip: clipName,
    paddle,
    setUp,
    window,
    rpm: reading?.rpm ?? null,
    band: reading?.band ?? null,
    flag: reading?.flag ?? null,
    verdict: verdict.state,
    truthRpm: trueRpmOf(clipName, window),
  })),
  lines: plan.lines,
})
