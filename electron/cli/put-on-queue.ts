import { resolve } from 'node:path'
import { guard } from '../media/guard.ts'
import { sha256Of } from '../media/sha256.ts'
import type { Question } from '../queue/question.ts'
import { openQueue } from '../queue/queue.ts'
import { queueState } from '../queue/state.ts'
import { forEachInput } from './failure.ts'
import { progressBar } from './progress-bar.ts'
import { queueTold } from './queue-told.ts'
import type { World } from './world.ts'

type Job = { server: string; question: Question; timeLimitSeconds: number; asJson: boolean }

/** Puts clips on a queue and says how far that queue is. Answers the exit code. */
export async function putOnQueue(
  clips: string[],
  { server, question, timeLimitSeconds, asJson }: Job,
  world: World,
): Promise<number> {
  const queue = await openQueue(server, { supervise: false })
  const bar = progressBar(world)
  try {
    const code = await forEachInput(clips, world, asJson, async word => {
      const file = await guard(resolve(word))
      const sha256 = await sha256Of(file, { signal: world.signal, progress: bar.show }).finally(bar.clear)
      await queue.put({ path: file.path, sha256, bytes: file.bytes, question, timeLimitSeconds })
    })
    const state = await queueState(server)
    world.out(asJson ? `${JSON.stringify(state)}\n` : queueTold(state))
    return code
  } finally {
    await queue.close()
  }
}
