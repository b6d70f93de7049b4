import type { ChildProcess, StdioOptions } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { connect, createServer, type Socket } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Queue } from './queue.ts'

export type Picture = Uint8Array<ArrayBuffer>

/** Whole pictures that may wait to be taken before ffmpeg is made to wait. */
const maxWaiting = 3

/** Cuts a stream of bytes into pictures of one size, written straight into memory that `room` hands out. */
class Cutter {
  readonly pictures = new Queue<Picture>()
  #picture: Picture
  #filled = 0
  constructor(readonly room: () => Picture) {
    this.#picture = room()
  }
  /** Where the next bytes belong. */
  rest = (): Picture => this.#picture.subarray(this.#filled)
  /** After `count` bytes were put there: false when enough pictures are waiting. */
  filled(count: number): boolean {
    this.#filled += count
    if (this.#filled === this.#picture.length) {
      this.pictures.push(this.#picture)
      this.#picture = this.room()
      this.#filled = 0
    }
    return this.pictures.length < maxWaiting
  }
  /** Gives back what was not taken. */
  leave(spare: (picture: Picture) => void): void {
    this.pictures.end()
    for (const picture of this.pictures.drain()) spare(picture)
    spare(this.#picture)
  }
  /** As `filled`, for bytes that lie elsewhere. */
  copied(bytes: Uint8Array): boolean {
    let goOn = true
    for (let at = 0; at < bytes.length; ) {
      const piece = bytes.subarray(at, at + this.rest().length)
      this.rest().set(piece)
      goOn = this.filled(piece.length)
      at += piece.length
    }
    return goOn
  }
}

/** The way from ffmpeg's standard output into memory, opened before ffmpeg is started. */
export type PixelPipe = {
  stdio: StdioOptions
  /** To be called right after the start. */
  attach(child: ChildProcess): void
  take(): Promise<Picture | undefined>
  /** Ends it, and gives back the memory that nobody took. */
  close(spare: (picture: Picture) => void): void
}

/**
 * Opens a way for pictures. Node reads a child's ordinary pipe in pieces of 64 KB, each in new memory, which
 * costs as much as decoding does; so where the system has local sockets, ffmpeg writes into one of those and
 * Node reads it straight into the picture. Windows gets the ordinary pipe.
 */
export async function openPixelPipe(room: () => Picture): Promise<PixelPipe> {
  const cutter = new Cutter(room)
  const pair = process.platform === 'win32' ? null : await socketPair(cutter).catch(() => null)
  if (!pair) return ordinaryPipe(cutter)
  pair.reader.once('close', () => cutter.pictures.end())
  return {
    stdio: ['ignore', pair.writer, 'pipe'],
    attach: () => void pair.writer.destroy(),
    take: () => {
      const picture = cutter.pictures.take()
      pair.reader.resume()
      return picture
    },
    close: spare => {
      pair.reader.destroy()
      cutter.leave(spare)
    },
  }
}

function ordinaryPipe(cutter: Cutter): PixelPipe {
  let reader: ChildProcess['stdout'] = null
  return {
    stdio: ['ignore', 'pipe', 'pipe'],
    attach(child) {
      reader = child.stdout
      reader?.on('data', (bytes: Buffer) => void (cutter.copied(bytes) || reader?.pause()))
      reader?.once('close', () => cutter.pictures.end())
    },
    take: () => {
      const picture = cutter.pictures.take()
      reader?.resume()
      return picture
    },
    close: spare => {
      reader?.destroy()
      cutter.leave(spare)
    },
  }
}

/** Two ends of one connection, through a socket in a folder that only this user may enter. */
async function socketPair(cutter: Cutter): Promise<{ reader: Socket; writer: Socket }> {
  const folder = await mkdtemp(join(tmpdir(), 'whorl-'))
  const path = join(folder, 'pixels')
  const server = createServer({ pauseOnConnect: true })
  try {
    return await new Promise((resolve, reject) => {
      server.once('error', reject)
      server.listen(path, () => {
        const onread = { buffer: cutter.rest, callback: (count: number) => cutter.filled(count) }
        const reader = connect({ path, onread })
        reader.on('error', reject)
        server.once('connection', writer => resolve({ reader, writer }))
      })
    })
  } finally {
    server.close()
    // Nobody needs the name any more, nor has to wait until it is gone.
    rm(folder, { recursive: true, force: true }).catch(() => {})
  }
}
