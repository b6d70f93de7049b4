/**
 * An MP4 whose tracks say that their samples lie in another file: each `dref` entry becomes an alias record
 * (QuickTime File Format, "Data reference atoms"; Inside Macintosh: Files, alias records) with an absolute path.
 * The movie header has to come before the samples.
 */
export function withExternalMedia(bytes: Buffer, path: string): Buffer {
  const entry = aliasTo(path)
  const dref = bytes.indexOf('dref', 0, 'latin1') - 4
  const self = dref + 16
  const grown = Buffer.concat([
    bytes.subarray(0, self),
    entry,
    bytes.subarray(self + bytes.readUInt32BE(self)),
  ])
  const growth = entry.length - bytes.readUInt32BE(self)
  for (const box of ['moov', 'trak', 'mdia', 'minf', 'dinf', 'dref']) {
    const at = bytes.indexOf(box, 0, 'latin1') - 4
    grown.writeUInt32BE(bytes.readUInt32BE(at) + growth, at)
  }
  return grown
}

function aliasTo(path: string): Buffer {
  const name = Buffer.from(path)
  const fixed = Buffer.alloc(150)
  const absolute = Buffer.alloc(4 + name.length + (name.length % 2))
  absolute.writeUInt16BE(2, 0)
  absolute.writeUInt16BE(name.length, 2)
  name.copy(absolute, 4)
  const end = Buffer.from([0xff, 0xff, 0, 0])
  const head = Buffer.alloc(12)
  head.writeUInt32BE(12 + fixed.length + absolute.length + end.length, 0)
  head.write('alis', 4, 'latin1')
  return Buffer.concat([head, fixed, absolute, end])
}
