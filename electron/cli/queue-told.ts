import { basename } from 'node:path'
import type { QueuedClip, SharedQueue } from '../../core/contract/shared-queue.ts'

/** A queue as a person reads it: its counts, who reads what, and why something failed or went back. */
export function queueTold({ place, waiting, reading, read, failed, clips }: SharedQueue): string {
  const lines = [
    `${place}: ${waiting} waiting, ${reading} being read, ${read} read, ${failed} failed`,
    ...clips.flatMap(lineOf),
  ]
  return `${lines.join('\n')}\n`
}

function lineOf({ path, state, worker, attempts, said }: QueuedClip): string[] {
  const name = basename(path)
  if (state === 'failed') return [`  ${name} failed after ${attempts} attempts: ${said}`]
  if (state === 'reading') return [`  ${name} is read by ${worker ?? 'nobody'}`]
  return state === 'waiting' && said !== '' ? [`  ${name} went back: ${said}`] : []
}
