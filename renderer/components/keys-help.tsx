import './keys-help.css'
import { useEffect, useRef } from 'react'
import { type KeyBinding, useKeyGroups } from '../state/keys.ts'

const signs: Record<string, string> = {
  ArrowLeft: '←',
  ArrowRight: '→',
  ArrowUp: '↑',
  ArrowDown: '↓',
  Mod: 'Ctrl',
  Escape: 'Esc',
  Delete: 'Del',
  Backspace: '⌫',
}

/** Every key in force, on demand: the newest group first, as that is where one is. */
export function KeysHelp() {
  const { groups, helpOpen } = useKeyGroups()
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    if (helpOpen) dialog.current?.showModal()
    else dialog.current?.close()
  }, [helpOpen])

  return (
    <dialog
      ref={dialog}
      className="keys-help"
      aria-labelledby="keys-help-title"
      onClose={() => useKeyGroups.setState({ helpOpen: false })}
    >
      {helpOpen && (
        <>
          <header>
            <h2 id="keys-help-title">Keys</h2>
            <button type="button" className="plain" onClick={() => dialog.current?.close()}>
              Close
            </button>
          </header>
          <div className="keys-help-groups">
            {groups.toReversed().map(group => (
              <section key={group.title}>
                <h3 className="quiet">{group.title}</h3>
                <dl>
                  {group.bindings.current.map(binding => (
                    <KeyLine key={binding.word} binding={binding} />
                  ))}
                </dl>
              </section>
            ))}
          </div>
        </>
      )}
    </dialog>
  )
}

function KeyLine({ binding }: { binding: KeyBinding }) {
  return (
    <div>
      <dt>
        {binding.keys.map(key => (
          <span key={key}>
            {key.split(/(?<=.)\+(?=.)/).map(part => (
              <kbd key={part}>{signs[part] ?? (part.length === 1 ? part.toUpperCase() : part)}</kbd>
            ))}
          </span>
        ))}
      </dt>
      <dd>{binding.word}</dd>
    </div>
  )
}
