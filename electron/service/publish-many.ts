import { statSync } from 'node:fs'
import { join } from 'node:path'
import type { CallContext } from '../../core/contract/calls.ts'
import { problemOf, WhorlError } from '../../core/contract/problem.ts'
import type { BatchDone, BatchOrder, Many, PublishedFile } from '../../core/contract/publish.ts'
import type { TableRow } from '../../core/contract/standings.ts'
import { nameOf } from '../../core/picture/paddle-dots.ts'
import { replaceFile } from '../export/replace-file.ts'
import { middleHit } from '../publish/middle-hit.ts'
import type { RatingCalls } from '../publish/pictures.ts'
import { fileNameOf } from '../publish/published-file.ts'
import { pathInside } from './folders.ts'
import type { Parts } from './parts.ts'
import type { FileCalls } from './publish.ts'

/**
 * A file for each of many paddles. One that cannot be made or written never stops the others; cancelling
 * leaves what was made. Throws `target-no-folder`, `folder-not-named`, `many-of-none`.
 */
export async function publishMany(
  parts: Parts,
  ratings: RatingCalls,
  files: FileCalls,
  { of, folder: asked, make }: BatchOrder,
  context: CallContext,
): Promise<BatchDone> {
  const folder = pathInside(parts.folders, asked)
  if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory())
    throw new WhorlError('target-no-folder', { path: join(folder, 'x') })
  const { rows } = await ratings['ratings.table']({}, context)
  const wanted = setUpsOf(parts, of)
  const paddles = rows.filter(row => wanted.has(row.setUpId))
  if (paddles.length === 0) throw new WhorlError('many-of-none', {})
  const made: BatchDone['made'] = []
  const taken = new Set<string>()
  for (const [i, row] of paddles.entries()) {
    if (context.signal.aborted) break
    context.progress({ what: nameOf(row), done: i, total: paddles.length })
    try {
      const file = await one(row)
      const path = join(folder, freeName(nameOf(row), file, taken))
      write(path, file)
      made.push({ paddle: nameOf(row), path, problem: null })
    } catch (thrown) {
      if (context.signal.aborted) break
      made.push({ paddle: nameOf(row), path: null, problem: problemOf(thrown) })
    }
  }
  return { made }

  function one({ setUpId }: TableRow): Promise<PublishedFile> {
    const quiet = { ...context, progress: () => {} }
    switch (make.what) {
      case 'picture':
        return files['publish.picture']({ ...make.order, of: { setUpIds: [setUpId] } }, quiet)
      case 'report':
        return files['publish.report']({ ...make.order, of: { kind: 'paddle', setUpId } }, quiet)
      case 'clip': {
        const hitId = middleHit(parts, setUpId)
        if (hitId === null)
          throw new WhorlError('picture-of-what', { kind: 'clip', what: 'a paddle that has a figure' })
        return files['publish.clip']({ ...make.order, hitId }, quiet)
      }
    }
  }
}

function setUpsOf({ workspace }: Parts, of: Many): ReadonlySet<string | null> {
  const evidence = workspace.evidence(of.kind === 'session' ? { sessionId: of.sessionId } : {})
  const meant =
    of.kind === 'season' ? evidence.filter(({ row }) => row.day.startsWith(`${of.year}-`)) : evidence
  return new Set(meant.map(({ row }) => row.setUpId))
}

/** Named by the paddle; two whose names come out alike are told apart by a number. */
function freeName(paddle: string, { name }: PublishedFile, taken: Set<string>): string {
  const ending = name.slice(name.lastIndexOf('.') + 1)
  const whole = fileNameOf(paddle, ending)
  const bare = whole.slice(0, -ending.length - 1)
  let free = whole
  for (let i = 2; taken.has(free.toLowerCase()); i++) free = `${bare}-${i}.${ending}`
  taken.add(free.toLowerCase())
  return free
}

function write(path: string, { base64 }: PublishedFile): void {
  try {
    replaceFile(path, Buffer.from(base64, 'base64'))
  } catch {
    throw new WhorlError('target-read-only', { path })
  }
}
