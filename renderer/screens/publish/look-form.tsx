import type { AccentName, NumberForm, SpinUnit, Theme } from '../../../core/contract/publish.ts'
import { accentFaults } from '../../../core/picture/accent-faults.ts'
import { huesOf } from '../../../core/picture/accents.ts'
import { Choice } from './choice.tsx'
import { ColourField } from './colour-field.tsx'
import { NumberField } from './number-field.tsx'
import { changeLook, changeSize, usePublishSettings } from './publish-settings.ts'

const themes: [Theme, string][] = [
  ['light', 'Light'],
  ['dark', 'Dark'],
  ['transparent', 'Transparent, for a light page'],
  ['transparent-dark', 'Transparent, for a dark page'],
]
const accentWords: [AccentName | 'own', string][] = [
  ['blue-amber', 'Blue and amber'],
  ['green-orange', 'Green and orange'],
  ['plum-gold', 'Plum and gold'],
  ['red-blue', 'Dark red and blue'],
  ['greys', 'Greys, for print'],
  ['own', 'Your own'],
]
const numberWords: [NumberForm, string][] = [
  ['space-point', '12\u202f345.6'],
  ['space-comma', '12\u202f345,6'],
  ['comma-point', '12,345.6'],
  ['point-comma', '12.345,6'],
]
const unitWords: [SpinUnit, string][] = [
  ['rpm', 'rpm'],
  ['turns-per-second', 'turns a second'],
  ['rad-per-second', 'radians a second'],
]

type LookFormProps = { what: 'picture' | 'report' | 'figures' }

/** How it looks: paper, colours, size and letters for a picture; colours alone for a report; figures always. */
export function LookForm({ what }: LookFormProps) {
  const { look, size } = usePublishSettings()
  const { accents } = look
  const own = typeof accents === 'string' ? null : accents
  const faults = what === 'figures' ? [] : accentFaults(look)
  return (
    <fieldset className="publish-fields">
      <legend>Look</legend>
      {what === 'picture' && (
        <>
          <Choice
            label="Paper"
            value={look.theme}
            options={themes}
            onChoose={theme => changeLook({ theme })}
          />
          <NumberField
            {...{ label: 'Width', unit: 'px', value: size.widthPx, least: 160, most: 8000, whole: true }}
            onNumber={widthPx => widthPx !== null && changeSize({ widthPx })}
          />
          <NumberField
            {...{ label: 'Height', unit: 'px', value: size.heightPx, least: 120, most: 8000, whole: true }}
            hint="as it needs"
            onNumber={heightPx => changeSize({ heightPx })}
          />
          <NumberField
            {...{ label: 'Letters', unit: 'px', value: look.fontPx, least: 6, most: 96 }}
            onNumber={fontPx => fontPx !== null && changeLook({ fontPx })}
          />
        </>
      )}
      {what !== 'figures' && (
        <Choice
          label="Colours"
          value={own ? 'own' : (accents as AccentName)}
          options={accentWords}
          onChoose={name => changeLook({ accents: name === 'own' ? huesOf(accents, look.theme) : name })}
        />
      )}
      {own && what !== 'figures' && (
        <>
          <ColourField
            label="First"
            value={own.first}
            onColour={first => changeLook({ accents: { ...own, first } })}
          />
          <ColourField
            label="Second"
            value={own.second}
            onColour={second => changeLook({ accents: { ...own, second } })}
          />
        </>
      )}
      {faults.length > 0 && (
        <p className="publish-fault" role="status">
          {faults.join(' ')}
        </p>
      )}
      <Choice
        label="Figures"
        value={look.figures.numbers}
        options={numberWords}
        onChoose={numbers => changeLook({ figures: { ...look.figures, numbers } })}
      />
      <Choice
        label="Spin in"
        value={look.figures.unit}
        options={unitWords}
        onChoose={unit => changeLook({ figures: { ...look.figures, unit } })}
      />
    </fieldset>
  )
}
