/** What differs between two states of a procedure, step by step and word by word. */
import { useMemo } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { Version } from '../../shared/lab/model.ts'
import {
  compareVersions,
  type ParameterDifference,
  type PartDifference,
  type RowDifference,
  type Stated,
} from '../../shared/procedure/versions/compare.ts'
import { rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import { placeInWords } from '../../shared/procedure/rows/places.ts'
import { wordsOfDifference } from '../../shared/procedure/versions/words.ts'
import { foldKept, type DifferenceBlock } from '../../shared/sources/difference.ts'
import { capitalised } from '../panes/procedure/words.ts'
import type { ProjectView } from '../store/view.ts'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import { ErrorSentence, ProgressLine } from '../ui/index.ts'
import { standingStated } from './stated.ts'
import { useStated } from './useStated.ts'

interface VersionDifferencesProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
  /** null for the working copy. */
  readonly older: Version | null
  readonly newer: Version | null
}

export function VersionDifferences({ view, procedure, older, newer }: VersionDifferencesProps) {
  const [a, b] = [useStated(older), useStated(newer)]
  const working = useMemo(() => standingStated(view, procedure), [view, procedure])
  const [from, to] = [a === null ? working : a, b === null ? working : b]
  if (from === 'failed' || to === 'failed')
    return (
      <ErrorSentence
        happened="The versions could not be compared."
        safe="Both are kept as they are."
        next="Close the list and open it again."
      />
    )
  if (!from || !to) return <ProgressLine words="Comparing" share={null} />
  return <Shown from={from} to={to} />
}

function Shown({ from, to }: { readonly from: Stated; readonly to: Stated }) {
  const machines = useWorkspaceState((state) => state.machines)
  const difference = useMemo(() => compareVersions(from, to), [from, to])
  const numbers = useMemo(() => new Map([...rowNumbers(from.steps), ...rowNumbers(to.steps)]), [from, to])
  const { place } = difference
  return (
    <>
      <p className="st-version-summary" role="status">
        {wordsOfDifference(difference)}.
      </p>
      {place ? (
        <p className="st-version-said">
          Where it begins: {place.before ? placeInWords(place.before, machines) : 'nothing said'} →{' '}
          {place.after ? placeInWords(place.after, machines) : 'nothing said'}
        </p>
      ) : null}
      {difference.parts.map((one) => (
        <PartChange key={one.part.id} change={one} />
      ))}
      {difference.parameters.map((one) => (
        <ParameterChange key={(one.after ?? one.before)!.id} change={one} />
      ))}
      <ol className="st-version-rows">
        {difference.rows
          .filter(({ fate, isMoved }) => fate !== 'kept' || isMoved)
          .map((row) => (
            <Row key={row.step.id} row={row} number={numbers.get(row.step.id) ?? ''} />
          ))}
      </ol>
    </>
  )
}

function Row({ row, number }: { readonly row: RowDifference; readonly number: string }) {
  const machines = useWorkspaceState((state) => state.machines)
  const { fate, isMoved, parts, said } = row
  const name = number === '' ? 'A section' : `Step ${number}`
  const fates = [...(fate === 'kept' ? [] : [fate]), ...(isMoved ? ['moved'] : [])].join(' and ')
  const places = said && [said.before.place, said.after.place]
  return (
    <li className="st-version-row">
      <h4 className="st-version-row-name">
        {name}, {fates}
      </h4>
      {said && said.before.level !== said.after.level ? (
        <p className="st-version-said">
          It was a {said.before.level} and is a {said.after.level}.
        </p>
      ) : null}
      {said && said.before.pointOfNoReturn !== said.after.pointOfNoReturn ? (
        <p className="st-version-said">
          {said.after.pointOfNoReturn
            ? 'It is the point of no return now.'
            : 'It is no point of no return any more.'}
        </p>
      ) : null}
      {places && JSON.stringify(places[0]) !== JSON.stringify(places[1]) ? (
        <p className="st-version-said">
          Place: {places[0] ? placeInWords(places[0], machines) : 'as before it'} →{' '}
          {places[1] ? placeInWords(places[1], machines) : 'as before it'}
        </p>
      ) : null}
      {parts.map((one) => (
        <PartChange key={one.part.id} change={one} />
      ))}
    </li>
  )
}

function PartChange({ change: { fate, part, words, isFileChanged } }: { readonly change: PartDifference }) {
  return (
    <div className="st-version-part">
      <p className="st-version-part-name">
        {capitalised(part.kind)}, {fate}
        {isFileChanged ? '; its path, owner or mode is another' : ''}
      </p>
      <div className="st-version-words-changed">
        {foldKept(words.blocks).map((block, i) =>
          block.kind === 'folded' ? (
            <span key={i} className="st-version-folded">{`… ${block.lines} lines as they were …\n`}</span>
          ) : (
            <Block key={i} block={block} />
          ),
        )}
      </div>
    </div>
  )
}

function Block({ block }: { readonly block: DifferenceBlock }) {
  if (block.kind === 'kept') return <span>{block.text}</span>
  return (
    <>
      {block.runs.map(({ fate, text }, i) =>
        fate === 'gone' ? (
          <del key={i}>{text}</del>
        ) : fate === 'come' ? (
          <ins key={i}>{text}</ins>
        ) : (
          <span key={i}>{text}</span>
        ),
      )}
    </>
  )
}

const wordOfField: Partial<Record<string, string>> = { preset: 'default', carried: 'value before it' }

function ParameterChange({
  change: { fate, before, after, fields },
}: {
  readonly change: ParameterDifference
}) {
  const named = fields.filter((field) => field !== 'position').map((field) => wordOfField[field] ?? field)
  const renamed = before && after && before.name !== after.name ? `“${before.name}” → ` : ''
  return (
    <p className="st-version-said">
      Parameter {renamed}“{(after ?? before)!.name}”, {fate}
      {named.length === 0 ? '' : `: ${named.join(', ')}`}
    </p>
  )
}
