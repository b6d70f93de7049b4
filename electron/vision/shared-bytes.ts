/** A copy in memory that workers look at in place: handing it over costs nothing, and it can be done again. */
export function sharedBytes(data: Uint8Array): Uint8Array<SharedArrayBuffer> {
  const shared = new Uint8Array(new SharedArrayBuffer(data.length))
  shared.set(data)
  return shared
}
