import type { PublishedThing } from '../../state/route.ts'
import { Choice } from './choice.tsx'
import { changeFormats, chooseMade, usePublishSettings } from './publish-settings.ts'
import { isPicture, type Made, madeOf, madeWords } from './what.ts'

const formats = {
  picture: [
    ['svg', 'SVG'],
    ['png', 'PNG'],
  ],
  report: [
    ['pdf', 'PDF'],
    ['html', 'HTML'],
  ],
  clip: [
    ['mp4', 'MP4'],
    ['gif', 'GIF'],
    ['webp', 'WebP'],
  ],
  lines: [
    ['txt', 'Plain text'],
    ['md', 'Markdown'],
    ['csv', 'Table (CSV)'],
  ],
} as const

/** What is made of it, and as what file. */
export function MadeForm({ of, made }: { of: PublishedThing; made: Made }) {
  const chosen = usePublishSettings(state => state.formats)
  return (
    <fieldset className="publish-fields">
      <legend>Make</legend>
      <Choice
        label="Kind"
        value={made}
        options={madeOf[of].map(one => [one, madeWords[one]])}
        onChoose={one => chooseMade(of, one)}
      />
      {isPicture(made) && (
        <Choice
          label="File"
          value={chosen.picture}
          options={formats.picture}
          onChoose={picture => changeFormats({ picture })}
        />
      )}
      {made === 'report' && (
        <Choice
          label="File"
          value={chosen.report}
          options={formats.report}
          onChoose={report => changeFormats({ report })}
        />
      )}
      {made === 'clip' && (
        <Choice
          label="File"
          value={chosen.clip}
          options={formats.clip}
          onChoose={clip => changeFormats({ clip })}
        />
      )}
      {made === 'lines' && (
        <Choice
          label="File"
          value={chosen.lines}
          options={formats.lines}
          onChoose={lines => changeFormats({ lines })}
        />
      )}
    </fieldset>
  )
}
