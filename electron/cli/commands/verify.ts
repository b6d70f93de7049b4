import { readFileSync, statSync } from 'node:fs'
import { resolve } from 'node:path'
import type { VerifyDocument } from '../../../core/contract/bundle.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { methodVersion } from '../../../core/spin/method-version.ts'
import { readBundle } from '../../bundle/read-bundle.ts'
import { verifyBundle } from '../../bundle/verify-bundle.ts'
import { mostBytes } from '../../export/zip.ts'
import { version } from '../../service/version.ts'
import { command, json } from '../command.ts'
import { exitCodes, forEachInput } from '../failure.ts'
import { table } from '../figures.ts'

export default command({
  says: 'Makes every figure of evidence bundles anew from its marks and says whether it is the same.',
  takes: 'BUNDLE…',
  words: { least: 1, most: Number.POSITIVE_INFINITY },
  options: { json },
  example: 'whorl verify heron-14.zip',
  async run({ words, options }, world) {
    let differ = false
    const code = await forEachInput(words, world, options.json, async word => {
      const path = resolve(word)
      const document = verified(path)
      differ ||= !document.same
      world.out(options.json ? `${JSON.stringify(document)}\n` : told(document))
    })
    return Math.max(code, differ ? exitCodes.unusable : exitCodes.fine)
  },
})

function verified(path: string): VerifyDocument {
  const { of, software: madeBy, ...bundle } = bundleAt(path)
  const figures = verifyBundle({ of, software: madeBy, ...bundle })
  return {
    schema: 'whorl.verify/1',
    path,
    of,
    same: figures.every(({ verdict }) => verdict !== 'different'),
    madeBy,
    checkedBy: { version, methodVersion },
    figures,
  }
}

function bundleAt(path: string) {
  const stat = statSync(path, { throwIfNoEntry: false })
  if (!stat) throw new WhorlError('file-not-found', { path })
  if (!stat.isFile()) throw new WhorlError('bundle-unusable', { path, what: 'it is no file' })
  if (stat.size > mostBytes)
    throw new WhorlError('bundle-unusable', { path, what: 'it is larger than any bundle' })
  return readBundle(path, readFileSync(path))
}

function told({ path, of, same, madeBy, checkedBy, figures }: VerifyDocument): string {
  const count = (verdict: string) => figures.filter(one => one.verdict === verdict).length
  const method =
    madeBy.methodVersion === checkedBy.methodVersion
      ? ''
      : `Made by method ${madeBy.methodVersion}, checked by method ${checkedBy.methodVersion}: figures may differ for that.\n`
  return `${table(figures.map(({ what, verdict, said }) => [verdict, what, said]))}${method}${path}, ${of.kind} ${of.name}: ${
    same ? 'same' : 'not the same'
  } (${count('same')} same, ${count('different')} different, ${count('not-checked')} not checked).\n`
}
