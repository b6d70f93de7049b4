import { readingDocumentSchema } from '../../../core/contract/reading.ts'
import { queueAnswers, queueState } from '../../queue/state.ts'
import { command, json } from '../command.ts'
import { queueTold } from '../queue-told.ts'
import { told } from '../reading-told.ts'

export default command({
  says:
    'How far the clips are that whorl read --queue put on a server, and what came out of them. The password may be\n' +
    'left out of the connection string: PGPASSWORD or the password file of PostgreSQL give it.',
  takes: 'postgres://user@host/database',
  words: { least: 1, most: 1 },
  options: {
    results: { says: 'print what was read, as whorl read does' },
    json,
  },
  example: 'whorl queue postgres://lab@bench/clips --results --json',
  async run({ words: [server], options }, world) {
    if (!options.results) {
      const state = await queueState(server!)
      world.out(options.json ? `${JSON.stringify(state)}\n` : queueTold(state))
      return 0
    }
    for await (const answer of queueAnswers(server!)) {
      if (options.json) world.out(`${JSON.stringify(answer)}\n`)
      else if (answer.schema === 'whorl.error/1') world.out(`${answer.message} ${answer.hint}\n\n`)
      else world.out(told(readingDocumentSchema.parse(answer), answer.clip?.path ?? null))
    }
    return 0
  },
})
