import { useEffect, useState } from 'react'
import type { PublishedFile } from '../../../core/contract/publish.ts'

export const fileOf = ({ name, mediaType, base64 }: PublishedFile): File =>
  new File([Uint8Array.from(atob(base64), letter => letter.charCodeAt(0))], name, { type: mediaType })

/** An address of the file's bytes in this page, for as long as it is shown. */
export function useAddress(file: PublishedFile | null): string | null {
  const [address, setAddress] = useState<string | null>(null)
  useEffect(() => {
    if (file === null) return setAddress(null)
    const made = URL.createObjectURL(fileOf(file))
    setAddress(made)
    return () => URL.revokeObjectURL(made)
  }, [file])
  return address
}

export const textOf = ({ base64 }: PublishedFile): string =>
  new TextDecoder().decode(Uint8Array.from(atob(base64), letter => letter.charCodeAt(0)))

/** Hands the file to the browser or the desktop, which asks where to put it or puts it among the downloads. */
export function save(file: PublishedFile): void {
  const address = URL.createObjectURL(fileOf(file))
  const link = document.createElement('a')
  link.href = address
  link.download = file.name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}
