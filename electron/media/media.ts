import type { FrameWindow } from '../../core/contract/bench.ts'
import type { FramePicture, Progress } from '../../core/contract/calls.ts'
import type { Clip } from '../../core/contract/clip.ts'

/** What a long job takes along: a way to stop it and a way to say how far it is. */
export type JobOptions = { signal?: AbortSignal; progress?: (progress: Progress) => void }

export type ProbeOptions = JobOptions & {
  /** What a person says the camera filmed at, frames per second of real time; it wins over the file. */
  captureFps?: number | null
  /** The file's hash when it is known already; hashing is then left out. */
  sha256?: string
}

export type PictureOptions = JobOptions & {
  /** Pictures wider than this are scaled down in the decoder, to even sizes; left out: full size. */
  maxWidthPx?: number
}

/** A part of the picture as shown, in whole pixels; it must lie inside the picture. */
export type Crop = { xPx: number; yPx: number; widthPx: number; heightPx: number }

/**
 * A picture as it lies in memory: to be read, neither written into nor transferred away. It stays as it is until
 * `done` is said; whoever never says so keeps that memory from being used again.
 */
export type LentPicture = FramePicture & { done?: () => void }

export type LumaOptions = JobOptions & {
  crop?: Crop
  /** Scales what is left after the crop down to this width (pixel averages), keeping its shape. */
  maxWidthPx?: number
}

/** The brightness of one frame, row by row without padding, 8 bits, exact as decoded unless scaled. */
export type LumaFrame = {
  frame: number
  widthPx: number
  heightPx: number
  data: Uint8Array<ArrayBuffer>
}

/** One of the programs that decode, and where it was found. */
export type Program = { path: string; origin: string; version: string }
export type Programs = { ffmpeg: Program; ffprobe: Program }

/**
 * Clips on the disk as frames and times. Frames are counted from 0 in the order of their times; frame n is
 * `timestamps()[n]`, whichever way it is asked for. Pictures are as shown, after the rotation, with square
 * pixels and even sizes. Only single local files are opened and none is ever changed.
 *
 * Every method rejects with a WhorlError: file-not-found, file-unreadable, clip-empty, clip-not-video,
 * clip-no-frames, clip-points-elsewhere, clip-too-small, frame-outside-clip, window-empty, ffmpeg-missing,
 * ffmpeg-failed, cancelled.
 */
export interface Media {
  /** Which ffmpeg and ffprobe are used, and where they come from. */
  programs(): Promise<Programs>
  /** All of `whorl.clip/1`. Reads the whole file and decodes every frame once: takes seconds on a long clip. */
  probe(path: string, options?: ProbeOptions): Promise<Clip>
  /** Container times in seconds, one a frame, rising. Fast: nothing is decoded. */
  timestamps(path: string, options?: JobOptions): Promise<number[]>
  /** One picture. Near ones are decoded along and kept in memory, so that steps answer at once. */
  frame(path: string, frame: number, options?: PictureOptions): Promise<LentPicture>
  /** Decodes a window (both ends included) into memory, as far as the memory set aside holds it. */
  prepare(path: string, window: FrameWindow, options?: PictureOptions): Promise<void>
  /** Brightness of each frame of a window, one after the other; only a few are in memory at a time. */
  lumaWindow(path: string, window: FrameWindow, options?: LumaOptions): AsyncIterable<LumaFrame>
  /** Stops every running program and forgets all pictures; calls made later are refused as cancelled. */
  close(): Promise<void>
}

export type MediaOptions = {
  /** Memory for decoded pictures, in bytes; 256 MB unless said. */
  budgetBytes?: number
  /**
   * Where to look for ffmpeg and ffprobe: `any` (in the order: ffmpeg-static, the packages from the
   * registry, the system's), `packages` or `system`. The environment variable WHORL_FFMPEG says the same.
   */
  programs?: 'any' | 'packages' | 'system'
}
