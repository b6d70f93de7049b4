import { resolve } from 'node:path'
import { ownWorkspace } from '../../service/data-folder.ts'
import { command } from '../command.ts'
import { openApp, smokeOpened } from '../open-app.ts'
import { text } from '../values.ts'

export default command({
  says: 'Opens the app on your own workspace.',
  takes: '',
  words: { least: 0, most: 0 },
  options: {
    workspace: { takes: 'FILE', says: 'another workspace; made if it is not there', read: text },
    smoke: { says: 'check the installation: open on an empty workspace, read one sample clip, end' },
  },
  example: 'whorl open --workspace club.sqlite',
  run({ options }, world) {
    if (options.smoke) return smokeOpened(world)
    const workspaceFile = options.workspace ? resolve(options.workspace) : ownWorkspace(world.env)
    return openApp({ workspaceFile, folders: [] }, world)
  },
})
