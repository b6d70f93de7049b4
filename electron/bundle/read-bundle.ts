import { strFromU8 } from 'fflate'
import { type Bundle, bundleSchema, manifestSchema } from '../../core/contract/bundle.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { hashOf } from '../export/hash-of.ts'
import { type Files, unzip } from '../export/zip.ts'

/**
 * What a bundle says. Nothing of it touches the disk; a zip that is not a whole bundle is refused.
 *
 * @throws `bundle-unusable`
 */
export function readBundle(path: string, bytes: Uint8Array): Bundle {
  const unusable = (what: string) => new WhorlError('bundle-unusable', { path, what })
  let files: Files
  try {
    files = unzip(bytes)
  } catch (thrown) {
    throw unusable((thrown as Error).message)
  }
  const json = (name: string): unknown => {
    const part = files[name]
    if (!part) throw unusable(`it holds no ${name}`)
    try {
      return JSON.parse(strFromU8(part))
    } catch {
      throw unusable(`its ${name} is not JSON`)
    }
  }
  const manifest = manifestSchema.safeParse(json('manifest.json'))
  if (!manifest.success) throw unusable('its manifest.json is not one')
  const listed = new Map(manifest.data.files.map(file => [file.path, file.sha256]))
  for (const name of Object.keys(files))
    if (name !== 'manifest.json' && !listed.has(name))
      throw unusable(`it holds ${name}, which its manifest does not`)
  for (const [name, sha256] of listed) {
    const part = files[name]
    if (!part) throw unusable(`it lacks ${name}, which its manifest lists`)
    if (hashOf(part) !== sha256) throw unusable(`${name} is not as it was packed`)
  }
  const bundle = bundleSchema.safeParse(json('bundle.json'))
  if (!bundle.success) {
    const issue = bundle.error.issues[0]!
    throw unusable(`its bundle.json, ${issue.path.join('.') || 'as a whole'}: ${issue.message}`)
  }
  return bundle.data
}
