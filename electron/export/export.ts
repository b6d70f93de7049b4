import type { Mapping, PlaceSeen } from '../../core/contract/exchange.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { ExportPlan } from '../../core/contract/workspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { gather } from './gather.ts'
import { guessMapping } from './guess-mapping.ts'
import { layoutOf, ownTable } from './layout.ts'
import { openTarget } from './open-target.ts'
import { type PlannedLine, planLines, unassignedLine } from './plan-lines.ts'
import type { Found, Target, WayBack } from './target.ts'

/** Where to write, and how: by this mapping, else by the one saved for the place, else as its table suggests. */
export type Aim = { target: string; mapping?: Mapping | null }

/** What tables lie in a place, and how fields would go into each. */
export async function lookAt(workspace: Workspace, words: string): Promise<PlaceSeen> {
  const target = openTarget(words, workspace.file)
  const tables = await target.tables()
  return {
    place: target.place,
    kind: target.kind,
    tables: tables.map(({ table, columns }) => ({ table, columns, guess: guessMapping(table, columns) })),
    mapping: workspace.mapping(target.place),
  }
}

/** What an export to this place would add, change, leave alone and hold back. Changes nothing. */
export async function previewExport(workspace: Workspace, aim: Aim | string): Promise<ExportPlan> {
  const { target, mapping, plan } = await prepared(workspace, aim)
  const lines = plan(await target.read(layoutOf(mapping))).map(({ line }) => line)
  return { target: target.place, kind: target.kind, mapping, lines, written: false }
}

/**
 * Writes the accepted figures, all or nothing, and answers what was done. Writing again changes nothing.
 * The workspace remembers the target, its mapping, and the way back.
 */
export async function writeExport(workspace: Workspace, aim: Aim | string): Promise<ExportPlan> {
  const { target, mapping, plan } = await prepared(workspace, aim)
  let lines: ExportPlan['lines'] = []
  const wayBack = await target.write(layoutOf(mapping), found => {
    const planned = plan(found)
    lines = planned.map(({ line }) => line)
    return planned.flatMap(({ change }) => change ?? [])
  })
  workspace.rememberTarget(target.place)
  workspace.saveMapping(target.place, mapping)
  if (wayBack) workspace.addTransfer({ kind: 'export', place: target.place, said: saidOf(wayBack), wayBack })
  return { target: target.place, kind: target.kind, mapping, lines, written: true }
}

/** Puts back what the place's last export found. Throws `undo-refused`. Answers what was undone. */
export async function undoExport(
  workspace: Workspace,
  words: string,
): Promise<{ place: string; said: string }> {
  const target = openTarget(words, workspace.file)
  const last = workspace.lastExport<WayBack>(target.place)
  if (!last)
    throw new WhorlError('undo-refused', { what: `there is no export to ${target.place} to take back` })
  await target.undo(last.wayBack)
  workspace.markUndone(last.id)
  return { place: target.place, said: last.said }
}

async function prepared(workspace: Workspace, aim: Aim | string) {
  const { target: words, mapping: asked } = typeof aim === 'string' ? { target: aim } : aim
  const target = openTarget(words, workspace.file)
  const mapping = asked === undefined ? (workspace.mapping(target.place) ?? (await suggested(target))) : asked
  const evidence = workspace.evidence()
  const gathered = gather(evidence)
  const plan = (found: Found): PlannedLine[] => [
    ...planLines(gathered, found, layoutOf(mapping), mapping?.names ?? []),
    ...unassignedLine(evidence).map(line => ({ line, change: null })),
  ]
  return { target, mapping, plan }
}

/** A database gets Whorl's own table; a sheet of the person's is written where its headers suggest. */
async function suggested(target: Target): Promise<Mapping | null> {
  if (target.kind === 'sqlite' || target.kind === 'postgres') return null
  const tables = await target.tables()
  if (tables.length === 0 || tables.some(({ table }) => table === ownTable)) return null
  const guesses = tables.flatMap(({ table, columns }) => guessMapping(table, columns) ?? [])
  const guess = guesses.find(({ columns }) => columns.mean_rpm !== undefined)
  if (guess) return layoutOf({ ...guess, table: ownTable }).own ? null : guess
  throw new WhorlError('target-unlike', {
    path: target.place,
    what: 'none of its columns is named like a paddle with its spin; say which are which',
  })
}

function saidOf({ rows }: WayBack): string {
  const added = rows.filter(({ before }) => before === null).length
  return `${added} added, ${rows.length - added} changed`
}
