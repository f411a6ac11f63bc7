/** What would lose its footing if a source or an entry were wrong or gone. */
import { useMemo } from 'react'
import type { LinkNode } from '../../shared/lab/model.ts'
import type { PartImpact } from '../../shared/provenance/impact.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import type { OpenLab } from '../db/lab.ts'
import type { Traced } from '../store/traced.ts'
import { useLabRead } from '../store/useLabRead.ts'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import { Badge, ProgressLine } from '../ui/index.ts'
import type { Labels, NodeLabel } from './labels.ts'
import { countImpact, loadImpact, type ImpactGroup, type ImpactPart, type ImpactRow } from './loadImpact.ts'
import type { TraceActs } from './TraceHops.tsx'
import { Unreadable } from './Way.tsx'
import { countOf, partName } from './words.ts'

export interface ImpactProps extends Pick<TraceActs, 'onGo'> {
  readonly traced: Traced
}

export function Impact({ traced, onGo }: ImpactProps) {
  const read = useMemo(() => (lab: OpenLab) => loadImpact(lab, traced), [traced])
  const loaded = useLabRead(read)
  if (loaded === 'failed') return <Unreadable />
  if (!loaded) return <ProgressLine words="Reading what rests on it" share={null} />
  return (
    <>
      <p className="st-trace-none" role="status">
        {summaryOf(loaded.groups)}
      </p>
      {loaded.start.words === null ? null : (
        <p className="st-trace-none">This is about all of it, not the selected words alone.</p>
      )}
      {loaded.groups.map((group) => (
        <Group key={group.id} group={group} labels={loaded.labels} onGo={onGo} />
      ))}
    </>
  )
}

function summaryOf(groups: readonly ImpactGroup[]): string {
  const { all, alone } = countImpact(groups)
  if (all === 0) return 'If it were wrong or gone, no step would lose anything: none rests on it.'
  const rests = `If it were wrong or gone: ${countOf(all, 'step rests', 'steps rest')} on it`
  if (alone === 0)
    return `${rests}, ${all === 1 ? 'and also on something else' : 'all of them also on something else'}.`
  return alone === all
    ? `${rests}, ${all === 1 ? 'and on nothing else' : 'all of them on nothing else'}.`
    : `${rests}, ${alone} of them on nothing else.`
}

interface GroupProps extends Pick<TraceActs, 'onGo'> {
  readonly group: ImpactGroup
  readonly labels: Labels
}

function Group({ group: { outline, rows }, labels, onGo }: GroupProps) {
  const projects = useWorkspaceState((state) => state.projects)
  const own = useWorkspaceState((state) => state.view?.project)
  const [project] = outline.projects
  const elsewhere = project === own ? null : projects.find(({ id }) => id === project)
  return (
    <section className="st-impact">
      <h3 className="st-trace-heading">
        {outline.title}
        {elsewhere ? `, in ${elsewhere.title}` : ''}
      </h3>
      <ul className="st-hops">
        {rows.map((row) => (
          <Row key={row.impact.owner.id} row={row} labels={labels} projects={outline.projects} onGo={onGo} />
        ))}
      </ul>
    </section>
  )
}

interface RowProps extends Pick<TraceActs, 'onGo'> {
  readonly row: ImpactRow
  readonly labels: Labels
  readonly projects: NodeLabel['projects']
}

function Row({ row: { impact, name, parts }, labels, projects, onGo }: RowProps) {
  const first = parts[0]!
  const label: NodeLabel = { kind: 'part', name, detail: '', text: null, projects, state: 'standing' }
  const node: LinkNode = { kind: 'part', id: first.part.id }
  return (
    <li className="st-hop">
      <button type="button" className="st-impact-go" onClick={() => onGo(node, first.ranges, label)}>
        <span className="st-hop-head">
          <span className="st-trace-name">{name}</span>
          <Badge line={impact.isAlone ? 'solid' : 'dashed'}>
            {impact.isAlone ? 'on this alone' : 'also on others'}
          </Badge>
        </span>
        {parts.map((part, i) => (
          <PartLine key={part.part.id} part={part} impact={impact.parts[i]!} />
        ))}
      </button>
      {impact.others.length > 0 ? <Others nodes={impact.others} labels={labels} onGo={onGo} /> : null}
    </li>
  )
}

function PartLine({
  part: { part, words },
  impact,
}: {
  readonly part: ImpactPart
  readonly impact: PartImpact
}) {
  const said = [
    impact.isAlone ? 'on this alone' : 'also on others',
    impact.isLooseOnly ? 'by loose links only: their words can no longer be found' : '',
    impact.hasStruck ? 'words on the way were struck out' : '',
  ]
  return (
    <span className="st-impact-part">
      <span className="st-trace-detail">{`${partName(part.kind)}: ${said.filter(Boolean).join('; ')}`}</span>
      {words === '' ? null : <span className="st-trace-quote">{plainWords(words, 160)}</span>}
    </span>
  )
}

/** So many are named; the rest is counted. */
const MOST_NAMED = 4

interface OthersProps extends Pick<TraceActs, 'onGo'> {
  readonly nodes: readonly LinkNode[]
  readonly labels: Labels
}

/** What a step rests on beside what is traced. */
function Others({ nodes, labels, onGo }: OthersProps) {
  const named = nodes.slice(0, MOST_NAMED)
  const rest = nodes.length - named.length
  return (
    <div className="st-impact-others">
      <p className="st-trace-detail">Also on</p>
      <ul>
        {named.map((node) => (
          <li key={node.id}>
            <Other node={node} label={labels.get(node.id)} onGo={onGo} />
          </li>
        ))}
      </ul>
      {rest > 0 ? <p className="st-trace-detail">{`and ${rest} more.`}</p> : null}
    </div>
  )
}

interface OtherProps extends Pick<TraceActs, 'onGo'> {
  readonly node: LinkNode
  readonly label: NodeLabel | undefined
}

function Other({ node, label, onGo }: OtherProps) {
  if (!label || label.state === 'gone')
    return <p className="st-trace-detail">{label?.name ?? 'Something that is gone'}</p>
  const words = label.text === null ? label.detail : plainWords(label.text, 80)
  return (
    <button type="button" className="st-impact-go" onClick={() => onGo(node, [], label)}>
      <span className="st-trace-name">
        {label.state === 'withdrawn' ? `${label.name} (withdrawn)` : label.name}
      </span>
      {words === '' ? null : <span className="st-trace-detail">{words}</span>}
    </button>
  )
}
