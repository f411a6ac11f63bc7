/** The trace of one thing: where it came from, what came of it, a step's life, what rests on a source or an entry. */
import { useMemo, useState } from 'react'
import type { StepId } from '../../shared/lab/ids.ts'
import type { LinkNode, Range } from '../../shared/lab/model.ts'
import type { Band } from '../frame/layout.ts'
import { pickFromPart } from '../panes/procedure/pick.ts'
import type { Traced } from '../store/traced.ts'
import { useLabRead } from '../store/useLabRead.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { linksFrom, type ProjectView } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'
import { Button } from '../ui/index.ts'
import { goToNode } from './goToNode.ts'
import { Impact } from './Impact.tsx'
import type { NodeLabel } from './labels.ts'
import { Life } from './Life.tsx'
import { Panel } from './Panel.tsx'
import { loadStart, type TraceStart } from './starts.ts'
import { Tabs, type Tab } from './Tabs.tsx'
import type { TraceActs } from './TraceHops.tsx'
import { WordsAt } from './WordsAt.tsx'
import { Way } from './Way.tsx'

/** Shows what `state.traced` names. Rendered while that is set. */
export function TracePanel() {
  const traced = useWorkspaceState((state) => state.traced)
  return traced ? <Trace key={keyOf(traced)} traced={traced} /> : null
}

/** Asked for again with other words or another view, it begins anew. */
function keyOf(traced: Traced): string {
  const ranges = 'ranges' in traced ? (traced.ranges ?? []) : []
  return [traced.id, traced.view ?? '', ...ranges.map(({ start, end }) => `${start}-${end}`)].join(' ')
}

type View = NonNullable<Traced['view']>

const words = {
  back: 'Where from',
  forward: 'What came of it',
  life: 'Life',
  impact: 'If wrong',
} as const satisfies Record<View, string>

function viewsOf({ kind }: Traced, step: StepId | null): readonly View[] {
  switch (kind) {
    case 'step':
    case 'part':
      return step === null ? ['back', 'forward', 'impact'] : ['back', 'forward', 'life', 'impact']
    case 'procedure':
    case 'version':
      return ['back', 'forward']
    case 'entry':
    case 'source':
    case 'capture':
      return ['back', 'forward', 'impact']
  }
}

function Trace({ traced }: { readonly traced: Traced }) {
  const workspace = useWorkspace()
  // It lies over the pane of the traced thing, whose words it repeats, and makes way when the person goes there.
  const [band, setBand] = useState<Band>(bandOf(traced))
  const [view, setView] = useState<View>(traced.view ?? usualView(traced, workspace.state.view))
  const acts: TraceActs = {
    onGo: (target, ranges, label) => {
      if (bandOf(target) === band) setBand(band === 'journal' ? 'procedure' : 'journal')
      void goToNode(workspace, target, ranges, label)
    },
    onCarry: (target, ranges) => void carryWords(workspace, target, ranges),
  }
  const step = useWorkspaceState(({ view }) => stepOf(traced, view))
  const tabs = viewsOf(traced, step).map((id): Tab<View> => ({ id, word: words[id] }))
  return (
    <Panel
      title="Trace"
      band={band}
      className="st-trace-panel"
      onClose={() => workspace.set({ traced: null })}
    >
      <Start traced={traced} onGo={acts.onGo} />
      <Tabs label="Ways to look at it" tabs={tabs} chosen={view} onChoose={setView}>
        <Shown traced={traced} step={step} view={view} acts={acts} />
      </Tabs>
    </Panel>
  )
}

/** Back where something stands behind it, else forward. Who traces a source wants to know what came of it. */
function usualView(traced: Traced, view: ProjectView | null): View {
  if (bandOf(traced) === 'procedure') return 'back'
  const isCarried = traced.kind === 'entry' && view !== null && linksFrom(view, traced.id).length > 0
  return isCarried ? 'back' : 'forward'
}

/** The step whose life can be told. */
function stepOf(traced: Traced, view: ProjectView | null): StepId | null {
  if (traced.kind === 'step') return traced.id
  return traced.kind === 'part' ? (view?.parts.get(traced.id)?.step ?? null) : null
}

interface ShownProps {
  readonly traced: Traced
  readonly step: StepId | null
  readonly view: View
  readonly acts: TraceActs
}

function Shown({ traced, step, view, acts }: ShownProps) {
  switch (view) {
    case 'back':
    case 'forward':
      return <Way key={view} traced={traced} direction={view} acts={acts} />
    case 'life':
      return step === null ? null : <Life step={step} onGo={acts.onGo} />
    case 'impact':
      return <Impact traced={traced} onGo={acts.onGo} />
  }
}

/** What is traced, with its words. Nothing while it is read: the view below says so. */
function Start({ traced, onGo }: { readonly traced: Traced } & Pick<TraceActs, 'onGo'>) {
  const read = useMemo(() => (lab: Parameters<typeof loadStart>[0]) => loadStart(lab, traced), [traced])
  const start = useLabRead(read)
  if (!start || start === 'failed') return null
  const { label, nodes } = start
  const text = start.words ?? label.text
  return (
    <div className="st-trace-start">
      <div className="st-trace-start-head">
        <div>
          <p className="st-trace-name">{start.words === null ? label.name : `Selected in ${label.name}`}</p>
          {label.detail === '' ? null : <p className="st-trace-detail">{label.detail}</p>}
        </div>
        {nodes[0] && label.state !== 'gone' && label.kind !== 'version' ? (
          <Button onClick={() => onGo(nodes[0]!, rangesOf(start), label)}>Go there</Button>
        ) : null}
      </div>
      {text ? (
        <div className="st-trace-start-words st-scroll" tabIndex={0} role="group" aria-label="Its words">
          <WordsAt end="" text={text} />
        </div>
      ) : null}
    </div>
  )
}

function rangesOf({ traced, words: own }: TraceStart): readonly Range[] {
  return own !== null && 'ranges' in traced ? (traced.ranges ?? []) : []
}

/** Offers the places of the shown procedure for words of a part, whichever procedure that is of. */
async function carryWords(workspace: Workspace, node: LinkNode, ranges: readonly Range[]): Promise<void> {
  if (node.kind !== 'part') return
  await workspace.flushTexts()
  const { id, queries } = workspace.requireLab()
  const part = await queries.findPart(node.id)
  const text = (await queries.findText(node.id))?.text
  const [outline] = part ? await queries.trace.outlines([part.procedure]) : []
  const fragment =
    part && text !== undefined
      ? pickFromPart(id, part, text, outline?.title ?? '', ranges.length > 0 ? ranges : undefined)
      : null
  if (fragment) workspace.set({ carrying: fragment })
  else workspace.say('notice', 'There are no words left to carry.')
}

export function bandOf({ kind }: { readonly kind: NodeLabel['kind'] }): Band {
  if (kind === 'part' || kind === 'step' || kind === 'procedure' || kind === 'version') return 'procedure'
  return kind === 'entry' ? 'journal' : 'sources'
}
