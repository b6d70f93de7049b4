/**
 * The planner's expected bands against simulated hits, as npm run bench:accuracy prints them.
 *
 *   npx tsx tests/bench/plan.ts [--hits N]
 */
import { parseArgs } from 'node:util'
import { planTable } from './plan/table.ts'

const { values } = parseArgs({ options: { hits: { type: 'string', default: '200' } } })
const worst = planTable(Number(values.hits), line => process.stdout.write(`${line}\n`))
process.stdout.write(`Farthest from 1: ${worst.toFixed(3)} (target within 15 %)\n`)
