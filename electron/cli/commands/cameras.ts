import { resolve } from 'node:path'
import { type CameraProfile, camerasDocumentOf } from '../../../core/contract/cameras.ts'
import { textOfSeconds } from '../../../core/units/duration.ts'
import { ownWorkspace } from '../../service/data-folder.ts'
import { openWorkspace } from '../../store/open-workspace.ts'
import { command, json } from '../command.ts'
import { table } from '../figures.ts'
import { text } from '../values.ts'
import { existing } from '../with-host.ts'

export default command({
  says:
    'Lists the cameras of a workspace as they were measured: mode, true rate, readout, focal length, each with its\n' +
    'uncertainty. check-rate, check-readout and check-focal keep what they find with --save-to NAME.',
  takes: '',
  words: { least: 0, most: 0 },
  options: {
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    json,
  },
  example: 'whorl cameras --json',
  async run({ options }, world) {
    const file = options.workspace === undefined ? ownWorkspace(world.env) : resolve(options.workspace)
    const workspace = openWorkspace(existing(file), { now: () => new Date() })
    try {
      const cameras = workspace.cameras()
      world.out(options.json ? `${JSON.stringify(camerasDocumentOf(cameras))}\n` : told(cameras))
      return 0
    } finally {
      workspace.close()
    }
  },
})

const head = ['camera', 'set to', 'true rate (95 %)', 'readout (95 %)', 'focal length (95 %)', 'exposure']
const missing = '–'

function told(cameras: readonly CameraProfile[]): string {
  if (cameras.length === 0) return 'No camera is kept yet: whorl check-rate … --save-to NAME makes one.\n'
  return table([head, ...cameras.map(rowOf)], [])
}

function rowOf({ name, nominalFps, rate, readout, focal, exposureSeconds }: CameraProfile): string[] {
  const plusMinus = (value: number, u: number | null, decimals: number) =>
    `${value.toFixed(decimals)}${u === null ? '' : ` ± ${(2 * u).toFixed(decimals)}`}`
  return [
    name,
    `${nominalFps} fps`,
    rate ? `${plusMinus(rate.captureFps, rate.captureFps * rate.relativeUncertainty, 3)} fps` : missing,
    readout
      ? `${plusMinus(1000 * readout.seconds, readout.uncertaintySeconds && 1000 * readout.uncertaintySeconds, 2)} ms`
      : missing,
    focal ? `${plusMinus(focal.focalLengthPx, focal.uncertaintyPx, 0)} px` : missing,
    exposureSeconds === null ? missing : textOfSeconds(exposureSeconds),
  ]
}
