/** The containers that Whorl opens, by the name of ffmpeg's demuxer, and how their first bytes look. */
const containers: { demuxer: string; looksRight: (head: Buffer) => boolean }[] = [
  {
    demuxer: 'mov',
    looksRight: head => /^(ftyp|moov|mdat|wide|free|skip|pnot)$/.test(head.toString('latin1', 4, 8)),
  },
  { demuxer: 'matroska', looksRight: head => head.readUInt32BE(0) === 0x1a45dfa3 },
  {
    demuxer: 'avi',
    looksRight: head => head.toString('latin1', 0, 4) === 'RIFF' && head.toString('latin1', 8, 11) === 'AVI',
  },
  {
    // Packets of 188 bytes, or of 192 with a time stamp before each (camcorders), begin with 0x47.
    demuxer: 'mpegts',
    looksRight: head =>
      [0, 1, 2].every(i => head[188 * i] === 0x47) || [0, 1, 2].every(i => head[192 * i + 4] === 0x47),
  },
  { demuxer: 'mpeg', looksRight: head => head.readUInt32BE(0) === 0x000001ba },
  { demuxer: 'asf', looksRight: head => head.toString('hex', 0, 8) === '3026b2758e66cf11' },
]

/** First words of the text files that name other files or addresses for a player to open. */
const listWords = [
  /^#EXTM3U/, // HTTP live streaming, M3U
  /^ffconcat\b/, // concat script
  /^(file|stream|exact_stream_id)\s+\S/m, // concat script without its first line
  /^v=0\s*$/m, // session description
  /^\[(playlist|reference)\]/i, // PLS, ASX of old
  /^<(asx|smil|mpd|playlist|tt|wpl|imsc)\b/im, // lists in XML: ASX, SMIL, DASH, XSPF, WPL
  /<(asx|smil|MPD|SmoothStreamingMedia|seq|playlist)\b/i,
  /^(RTSPtext|rtsptext|SMILtext)/, // QuickTime text links
  /^\s*(https?|rtsp|rtmp|rtp|udp|tcp|ftp|mms|file):\/\//im, // bare addresses
]

export type Looks =
  | { kind: 'container'; demuxer: string }
  | { kind: 'list' }
  | { kind: 'other'; what: string }

/** How many of a file's first bytes `looksLike` wants. */
export const headBytes = 4096

/**
 * What a file is by its content alone; its name says nothing. Only a container from the list above is ever
 * shown to ffmpeg, and ffmpeg is told which one it is, so that it never guesses a list or a script.
 */
export function looksLike(head: Buffer): Looks {
  const padded = Buffer.concat([head, Buffer.alloc(Math.max(0, 600 - head.length))])
  const container = containers.find(c => c.looksRight(padded))
  if (container) return { kind: 'container', demuxer: container.demuxer }
  const text = textOf(head)
  if (text === null) return { kind: 'other', what: 'it is none of MP4, MOV, MKV, AVI, MPEG, WMV' }
  if (listWords.some(word => word.test(text.trimStart()))) return { kind: 'list' }
  return { kind: 'other', what: 'it is a text file' }
}

/** The bytes as text, or null when they are none: a text holds no control characters but those of lines. */
function textOf(head: Buffer): string | null {
  const wide = head[0] === 0xff && head[1] === 0xfe
  const text = head.toString(wide ? 'utf16le' : 'utf8').replace(/^\uFEFF/, '')
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
  return /[\x00-\x08\x0e-\x1a\x1c-\x1f]/.test(text) ? null : text
}
