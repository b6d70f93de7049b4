import type { Progress } from '../../core/contract/calls.ts'
import type { World } from './world.ts'

const cells = 24

/** A bar on standard error that draws over itself; nothing where no person watches. */
export function progressBar(world: World): { show(progress: Progress): void; clear(): void } {
  if (!world.errIsTerminal) return { show() {}, clear() {} }
  let drawn = 0
  const draw = (text: string) => {
    world.err(`\r${text.padEnd(drawn)}`)
    drawn = text.length
  }
  return {
    show({ what, done, total }) {
      const share = total ? Math.min(1, done / total) : 0
      const bar = '█'.repeat(Math.round(share * cells)).padEnd(cells, '·')
      draw(total ? `${bar} ${Math.round(share * 100)} % ${what}` : what)
    },
    clear() {
      if (drawn > 0) world.err(`\r${' '.repeat(drawn)}\r`)
      drawn = 0
    },
  }
}
