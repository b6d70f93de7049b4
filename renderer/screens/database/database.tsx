import './database.css'
import { useState } from 'react'
import { BringIn } from './bring-in.tsx'
import { Transfers } from './transfers.tsx'
import { WriteFigures } from './write-figures.tsx'

const ways = [
  {
    word: 'Figures out',
    says: 'Each paddle in each set-up becomes one row of a ratings database or of a sheet.',
    Part: WriteFigures,
  },
  {
    word: 'Tables in',
    says: 'Your own table: its paddles, and every other column as a value of theirs.',
    Part: BringIn,
  },
  {
    word: 'History',
    says: 'What went out and came in. The last of each can be taken back.',
    Part: Transfers,
  },
] as const

/** Between the workspace and the person's own tables: out, in, and back. */
export function Database() {
  const [way, setWay] = useState<(typeof ways)[number]>(ways[0])
  return (
    <div className="database">
      <header>
        <h1>Database</h1>
        <fieldset className="database-ways" aria-label="Which way">
          {ways.map(each => (
            <button
              key={each.word}
              type="button"
              className="plain"
              aria-pressed={each === way}
              onClick={() => setWay(each)}
            >
              {each.word}
            </button>
          ))}
        </fieldset>
        <p className="quiet">{way.says}</p>
      </header>
      <way.Part />
    </div>
  )
}
