/** What is known of a source beside its title: who, when, how it came, what sorts it, who uses it, what came of it. */
import type { Capture } from '../../../../shared/lab/model.ts'
import { useWorkspaceState } from '../../../store/useWorkspace.ts'
import { CameOfSource } from '../CameOf.tsx'
import { dayAndTimeOf, dayOf } from '../rows.ts'
import type { Reading } from '../useReading.ts'
import { datedWords, folderPath, wayInWords } from './facts.ts'
import { Remark } from './Remark.tsx'

export function About({ reading }: { readonly reading: Reading }) {
  const { source, capture, captures, all } = reading
  const projects = useWorkspaceState((state) => state.projects)
  const folders = useWorkspaceState((state) => state.labSources?.folders)
  const using = projects.filter(({ id }) => source.projects.includes(id)).map(({ title }) => title)
  const lying = folders ? source.folders.map((id) => folderPath(folders, id)).filter(Boolean) : []
  const facts: readonly (readonly [string, string])[] = [
    ['Author', source.author ?? ''],
    ['Dated', source.dated ? datedWords(source.dated) : ''],
    ['Came in', `${wayInWords[source.wayIn]}, ${dayAndTimeOf(source.added)}`],
    ['Read again', again(reading)],
    ['Saved', capture?.saved ? `by the browser on ${dayOf(capture.saved)}` : ''],
    ['Bookmarked', source.bookmarked ? dayOf(source.bookmarked) : ''],
    ['Folders', lying.join(', ')],
    ['Projects', using.join(', ') || 'none uses it'],
  ]
  return (
    <div className="st-about">
      <dl className="st-facts">
        {facts
          .filter(([, words]) => words !== '')
          .map(([name, words]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{words}</dd>
            </div>
          ))}
      </dl>
      <Remark key={source.id} source={source} />
      {capture && capture.notes.length > 0 ? <Notes capture={capture} /> : null}
      <CameOfSource nodes={[...all, ...captures.map(({ id }) => id)]} />
    </div>
  )
}

function again({ captures }: Reading): string {
  const [newest] = captures
  if (captures.length < 2 || !newest) return ''
  return `${wayInWords[newest.wayIn]}, ${dayAndTimeOf(newest.taken)}`
}

function Notes({ capture }: { readonly capture: Capture }) {
  return (
    <details className="st-notes-in">
      <summary>What was changed on the way in</summary>
      <ul>
        {capture.notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </details>
  )
}
