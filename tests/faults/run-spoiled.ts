/** `npm run fuzz -- [--copies N] [--seed S]`: opens spoiled copies of the samples; see hostile/spoiled-clips.ts. */
import { parseArgs } from 'node:util'
import { openSpoiledClips } from './hostile/spoiled-clips.ts'

const { values } = parseArgs({
  options: { copies: { type: 'string', default: '2000' }, seed: { type: 'string', default: '1' } },
})
const { refusals, faults, ...figures } = await openSpoiledClips(
  Number(values.copies),
  Number(values.seed),
  line => console.log(line),
)
for (const [name, value] of Object.entries({ ...figures, ...refusals }))
  console.log(`${name.padEnd(24)} ${Number(value.toFixed(2))}`)
console.log(`${'faults'.padEnd(24)} ${faults.length}`)
process.exit(faults.length > 0 ? 1 : 0)
