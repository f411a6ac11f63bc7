/** The keys that do something now, as the menus on the screen say them. */
import { useState, type ReactNode } from 'react'
import { FIND_KEYS } from '../find/index.ts'
import { PROJECT_KEYS } from '../labs/OpenProjects.tsx'
import { actsOffered } from '../store/offers.ts'
import { Kbd } from '../ui/index.ts'
import { isKeys } from '../ui/keys.ts'

interface KeyLine {
  readonly keys: string
  readonly word: string
}

/** Keys that no menu says. */
const everywhere: readonly KeyLine[] = [
  { keys: FIND_KEYS, word: 'Find anything, and every act of the program' },
  { keys: 'Alt+C', word: 'Carry what is selected, or the thing that the keyboard is at' },
  { keys: 'Alt+T', word: 'Trace what is selected, or the thing that the keyboard is at' },
  { keys: 'Alt+,', word: 'Back along a link' },
  { keys: 'Alt+.', word: 'Forward along a link' },
  ...PROJECT_KEYS.split(', ').map((keys, place) => ({
    keys,
    word: place === 0 ? 'The open project before' : 'The open project behind',
  })),
]

export function Keys(): ReactNode {
  // As the screen stood when the page was opened: what is offered changes with every press.
  const [groups] = useState(keysByMatter)
  return (
    <>
      <p>
        {'With '}
        <Kbd keys={FIND_KEYS} />
        {' every act can be found by its words; its key stands beside it.'}
      </p>
      {[...groups].map(([about, lines]) => (
        <section key={about}>
          <h3>{about}</h3>
          <dl className="st-help-keys">
            {lines.map(({ keys, word }) => (
              <div key={`${keys} ${word}`}>
                <dt>
                  <Kbd keys={keys} />
                </dt>
                <dd>{word}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </>
  )
}

function keysByMatter(): ReadonlyMap<string, readonly KeyLine[]> {
  const groups = new Map<string, readonly KeyLine[]>([['Everywhere', everywhere]])
  for (const { about, item } of actsOffered())
    if (isKeys(item.hint))
      groups.set(about, [...(groups.get(about) ?? []), { keys: item.hint, word: item.word }])
  return groups
}
