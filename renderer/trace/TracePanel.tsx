/** The trace of one thing: what it came from, and what came of it, hop by hop with the words at both ends. */
import { useEffect, useState } from 'react'
import type { LinkNode, Range } from '../../shared/lab/model.ts'
import type { Band } from '../frame/layout.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { Button, ErrorSentence, ProgressLine } from '../ui/index.ts'
import { loadTrace, type LoadedTrace, type NodeLabel } from './loadTrace.ts'
import { Panel } from './Panel.tsx'
import { TraceHops, WordsAt } from './TraceHops.tsx'
import { goToNode } from './goToNode.ts'

/** Shows what `state.traced` names. Rendered while that is set. */
export function TracePanel() {
  const traced = useWorkspaceState((state) => state.traced)
  return traced ? <Trace key={traced.id} node={traced} /> : null
}

function Trace({ node }: { readonly node: LinkNode }) {
  const workspace = useWorkspace()
  const loaded = useTrace(workspace, node)
  // It lies over the pane of the traced thing, whose words it repeats, and makes way when the person goes there.
  const [band, setBand] = useState<Band>(bandOf(node))
  const go = (target: LinkNode, ranges: readonly Range[], label: NodeLabel): void => {
    if (bandOf(target) === band) setBand(band === 'journal' ? 'procedure' : 'journal')
    void goToNode(workspace, target, ranges, label)
  }
  return (
    <Panel
      title="Trace"
      band={band}
      className="st-trace-panel"
      onClose={() => workspace.set({ traced: null })}
    >
      <div className="st-panel-body st-scroll" tabIndex={0} role="group" aria-label="The trace">
        {loaded === null ? <ProgressLine words="Reading the links" share={null} /> : null}
        {loaded === 'failed' ? (
          <ErrorSentence
            happened="The links could not be read."
            safe="Nothing was changed."
            next="Close the trace and open it again."
          />
        ) : null}
        {loaded !== null && loaded !== 'failed' ? <Loaded loaded={loaded} node={node} onGo={go} /> : null}
      </div>
    </Panel>
  )
}

interface LoadedProps {
  readonly loaded: LoadedTrace
  readonly node: LinkNode
  readonly onGo: (target: LinkNode, ranges: readonly Range[], label: NodeLabel) => void
}

function Loaded({ loaded: { start, back, forward, labels }, node, onGo }: LoadedProps) {
  const parts = { labels, onGo }
  return (
    <>
      <div className="st-trace-start">
        <p className="st-trace-name">{start.name}</p>
        {start.detail === '' ? null : <p className="st-trace-detail">{start.detail}</p>}
        {start.text ? <WordsAt end="" text={start.text} /> : null}
        <Button onClick={() => onGo(node, [], start)}>Go there</Button>
      </div>
      <h3 className="st-trace-heading">What it came from</h3>
      {back.length > 0 ? (
        <TraceHops hops={back} direction="back" near={start} {...parts} />
      ) : (
        <p className="st-trace-none">{nothingBehind(start)}</p>
      )}
      <h3 className="st-trace-heading">What came of it</h3>
      {forward.length > 0 ? (
        <TraceHops hops={forward} direction="forward" near={start} {...parts} />
      ) : (
        <p className="st-trace-none">Nothing was carried from it yet.</p>
      )}
    </>
  )
}

function nothingBehind({ kind }: NodeLabel): string {
  switch (kind) {
    case 'entry':
      return 'It was written here; no link leads further back.'
    case 'part':
      return 'It rests on nothing: it was written here, and no link leads back from it.'
    case 'source':
    case 'capture':
      return 'Sources come from outside; nothing in this lab stands behind them.'
  }
}

/** The trace of a thing, read again whenever the lab changed. Answers that come late are dropped. */
function useTrace(workspace: Workspace, node: LinkNode): LoadedTrace | 'failed' | null {
  const sequence = useWorkspaceState((state) => state.view?.sequence)
  const [loaded, setLoaded] = useState<LoadedTrace | 'failed' | null>(null)
  useEffect(() => {
    let isStale = false
    loadTrace(workspace.requireLab(), node).then(
      (trace) => {
        if (!isStale) setLoaded(trace)
      },
      (error: unknown) => {
        console.error(error)
        if (!isStale) setLoaded('failed')
      },
    )
    return () => {
      isStale = true
    }
  }, [workspace, node, sequence])
  return loaded
}

function bandOf({ kind }: LinkNode): Band {
  if (kind === 'part') return 'procedure'
  return kind === 'entry' ? 'journal' : 'sources'
}
