import type { ClipView } from '../../../core/contract/publish.ts'
import { clipPace, paceNote } from '../../../core/picture/clip-pace.ts'
import { Choice } from './choice.tsx'
import { ColourField } from './colour-field.tsx'
import { NumberField } from './number-field.tsx'
import { changeClip, usePublishSettings } from './publish-settings.ts'

const views: [ClipView, string][] = [
  ['frame', 'The whole frame'],
  ['ball', 'The ball, close up'],
  ['both', 'Both side by side'],
  ['portrait', 'Upright, 9:16'],
]

/** What an annotated clip shows, how slow, how large, in which colours. */
export function ClipForm({ captureFps }: { captureFps: number | null }) {
  const { clip, formats } = usePublishSettings()
  const { ink } = clip
  const note =
    captureFps === null
      ? null
      : paceNote(clipPace(captureFps, clip.slowed, formats.clip), clip.slowed, formats.clip)
  return (
    <fieldset className="publish-fields">
      <legend>Clip</legend>
      <Choice label="Shows" value={clip.view} options={views} onChoose={view => changeClip({ view })} />
      <NumberField
        {...{ label: 'Slowed', unit: 'times', value: clip.slowed, least: 1, most: 1000 }}
        onNumber={slowed => slowed !== null && changeClip({ slowed })}
      />
      {note && (
        <p className="publish-fault" role="status">
          {note}
        </p>
      )}
      <NumberField
        {...{ label: 'Shorter side', unit: 'px', value: clip.shortPx, least: 240, most: 2160, whole: true }}
        onNumber={shortPx => shortPx !== null && changeClip({ shortPx })}
      />
      <NumberField
        {...{ label: 'Letters', unit: 'px', value: clip.fontPx, least: 8, most: 96 }}
        hint="as they fit"
        onNumber={fontPx => changeClip({ fontPx })}
      />
      <ColourField
        label="Outline"
        value={ink.outline}
        onColour={outline => changeClip({ ink: { ...ink, outline } })}
      />
      <ColourField label="Marks" value={ink.mark} onColour={mark => changeClip({ ink: { ...ink, mark } })} />
      <ColourField label="Axis" value={ink.axis} onColour={axis => changeClip({ ink: { ...ink, axis } })} />
    </fieldset>
  )
}
