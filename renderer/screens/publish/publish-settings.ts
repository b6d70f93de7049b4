import { create } from 'zustand'
import {
  type ClipFormat,
  type ClipStyle,
  type Look,
  type PictureOrder,
  type ReportOrder,
  type SavedLook,
  type Size,
  usualClip,
  usualLook,
  usualSize,
} from '../../../core/contract/publish.ts'
import type { PublishedThing } from '../../state/route.ts'
import type { Made } from './what.ts'

export type Formats = {
  picture: PictureOrder['format']
  report: Extract<ReportOrder['format'], 'html' | 'pdf'>
  lines: Extract<ReportOrder['format'], 'txt' | 'md' | 'csv'>
  clip: ClipFormat
}
export type PublishSettings = {
  look: Look
  size: Size
  clip: ClipStyle
  formats: Formats
  /** What was made last of each thing. */
  made: Partial<Record<PublishedThing, Made>>
}

/** How things are made, kept while the program is open: one comes back to what one was about. */
export const usePublishSettings = create<PublishSettings>(() => ({
  look: usualLook,
  size: usualSize,
  clip: usualClip,
  formats: { picture: 'svg', report: 'pdf', lines: 'txt', clip: 'mp4' },
  made: {},
}))

const set = usePublishSettings.setState
export const changeLook = (look: Partial<Look>) => set(all => ({ look: { ...all.look, ...look } }))
export const changeSize = (size: Partial<Size>) => set(all => ({ size: { ...all.size, ...size } }))
export const changeClip = (clip: Partial<ClipStyle>) => set(all => ({ clip: { ...all.clip, ...clip } }))
export const changeFormats = (formats: Partial<Formats>) =>
  set(all => ({ formats: { ...all.formats, ...formats } }))
export const chooseMade = (of: PublishedThing, made: Made) =>
  set(all => ({ made: { ...all.made, [of]: made } }))
export const wear = ({ look, size, clip }: SavedLook) => set({ look, size, clip })
