import { resolve } from 'node:path'
import { ownWorkspace } from '../../service/data-folder.ts'
import { command, json } from '../command.ts'
import { serveApp } from '../serve-app.ts'
import { portNumber, text } from '../values.ts'

export default command({
  says: 'Serves the app to a browser on this machine, at a secret address, until Ctrl-C.',
  takes: '',
  words: { least: 0, most: 0 },
  options: {
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    folder: {
      takes: 'DIR',
      says: 'a folder with clips besides your home; may be given again',
      read: text,
      many: true,
    },
    port: { takes: 'N', says: 'the port; any free one unless said', read: portNumber },
    json,
  },
  example: 'whorl serve --folder /media/camera/DCIM',
  run({ options }, world) {
    const workspaceFile = options.workspace ? resolve(options.workspace) : ownWorkspace(world.env)
    return serveApp({ workspaceFile, folders: options.folder, port: options.port }, world, address =>
      world.out(
        options.json
          ? `${JSON.stringify({ schema: 'whorl.serve/1', address, workspace: workspaceFile })}\n`
          : `Whorl is open at\n  ${address}\nCtrl-C ends it.\n`,
      ),
    )
  },
})
