import { once } from 'node:events'
import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import type { Scene } from './scene.ts'

/** Work for one thread: a scene, where it goes, and whether a clip that is there already will do. */
export type Order = { scene: Scene; folder: string; once: boolean }
export type Done = { clipPath: string; truthPath: string; seconds: number }

/** Renders scenes on all cores, in the order given; `onDone` hears of each as it is finished. */
export async function renderMany(
  orders: readonly Order[],
  onDone: (done: Done, order: Order) => void = () => {},
): Promise<Done[]> {
  const results: Done[] = []
  let next = 0
  const work = async () => {
    const worker = new Worker(new URL('./thread.mjs', import.meta.url))
    try {
      while (next < orders.length) {
        const at = next++
        const order = orders[at]!
        worker.postMessage(order)
        const [done] = (await once(worker, 'message')) as [Done]
        results[at] = done
        onDone(done, order)
      }
    } finally {
      await worker.terminate()
    }
  }
  await Promise.all(Array.from({ length: Math.min(orders.length, availableParallelism()) }, work))
  return results
}
