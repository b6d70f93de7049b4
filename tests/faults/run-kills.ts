/** `npm run faults -- [--moments N] [--seed S]`: kills the host at many moments of its work; see kills/moments.ts. */
import { parseArgs } from 'node:util'
import { killAtMoments } from './kills/moments.ts'

const { values } = parseArgs({
  options: { moments: { type: 'string', default: '200' }, seed: { type: 'string', default: '1' } },
})
const figures = await killAtMoments(Number(values.moments), Number(values.seed), line => console.log(line))
for (const [name, value] of Object.entries(figures)) console.log(`${name.padEnd(16)} ${value}`)
