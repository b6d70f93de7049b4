import { basename, resolve } from 'node:path'
import { createMedia } from '../../media/create-media.ts'
import { openQueue } from '../../queue/queue.ts'
import { work } from '../../queue/work.ts'
import { createVision } from '../../vision/vision.ts'
import { command, json } from '../command.ts'
import { sayProblem } from '../failure.ts'
import { progressBar } from '../progress-bar.ts'
import { told } from '../reading-told.ts'
import { text } from '../values.ts'

export default command({
  says:
    'Reads clips that whorl read --queue put on a server, on all cores of this machine, until Ctrl-C. The password may\n' +
    'be left out of the connection string: PGPASSWORD or the password file of PostgreSQL give it.',
  takes: 'postgres://user@host/database',
  words: { least: 1, most: 1 },
  options: {
    folder: {
      takes: 'DIR',
      says: 'where to look for clips that are not at the path they were put with, again for each',
      read: text,
      many: true,
    },
    'until-empty': { says: 'end when no clip waits and none is being read' },
    json,
  },
  example: 'whorl work postgres://lab@bench/clips --folder /mnt/clips',
  async run({ words: [server], options }, world) {
    const queue = await openQueue(server!, { supervise: true })
    const media = createMedia()
    const vision = createVision(media)
    const bar = progressBar(world)
    try {
      await work(
        queue,
        { media, vision },
        {
          folders: options.folder.map(folder => resolve(folder)),
          untilEmpty: options['until-empty'],
          signal: world.signal,
          progress: bar.show,
          answered({ path }, answer) {
            bar.clear()
            if (options.json) world.out(`${JSON.stringify(answer)}\n`)
            else if (answer.schema === 'whorl.reading/1') world.out(told(answer, path))
            else world.out(`${basename(path)}: ${answer.message} ${answer.hint}\n\n`)
          },
          trouble(thrown) {
            bar.clear()
            sayProblem(thrown, world, false)
          },
        },
      )
    } finally {
      bar.clear()
      await vision.close()
      await media.close()
      await queue.close()
    }
    return 0
  },
})
