import { parentPort } from 'node:worker_threads'
import type { Done, Order } from './many.ts'
import { renderOnce, renderScene } from './render-scene.ts'

parentPort?.on('message', async ({ scene, folder, once }: Order) => {
  const began = performance.now()
  const { clipPath, truthPath } = await (once ? renderOnce : renderScene)(scene, folder)
  const done: Done = { clipPath, truthPath, seconds: (performance.now() - began) / 1000 }
  parentPort?.postMessage(done)
})
