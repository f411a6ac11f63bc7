import { useEffect, useState } from 'react'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button, LinkBadge } from '../../ui/index.ts'
import { TraceIcon } from '../../ui/icons.tsx'
import { pageWords } from '../../../shared/sources/pages.ts'
import { findCameOf, type CameOf } from './cameOf.ts'

/** What came of a source, as a list to go on from. */
export function CameOfSource({ nodes }: { readonly nodes: readonly string[] }) {
  const workspace = useWorkspace()
  const projects = useWorkspaceState((state) => state.projects)
  const open = useWorkspaceState((state) => state.view?.project)
  const heads = useWorkspaceState((state) => state.labSources?.heads)
  const found = useCameOf(nodes)
  const [isOpen, setOpen] = useState(false)
  if (found.length === 0) return <p className="st-source-facts">Nothing came of it yet.</p>
  return (
    <div className="st-came-of">
      <Button
        look="quiet"
        className="st-flush"
        icon={TraceIcon}
        aria-expanded={isOpen}
        onClick={() => setOpen(!isOpen)}
      >
        {`What came of it (${found.length})`}
      </Button>
      {isOpen ? (
        <ul className="st-trace st-scroll" aria-label="What came of it">
          {found.map((one) => {
            const page = pageWords(
              heads?.get(one.link.older.node.id)?.pages ?? [],
              one.link.older.ranges.map(({ position }) => position),
            )
            const elsewhere = one.project === open ? null : projects.find(({ id }) => id === one.project)
            return (
              <li key={one.link.id} className="st-trace-line">
                <LinkBadge type={one.type} isLoose={one.isLoose} />
                <button
                  type="button"
                  className="st-came-of-go"
                  disabled={one.project === null}
                  onClick={() => void goThere(workspace, one)}
                >
                  <span>
                    {elsewhere ? `${one.where}, in ${elsewhere.title}` : one.where}
                    {page === null ? '' : `, from ${page}`}
                  </span>
                  {one.words === '' ? null : <span className="st-trace-quote">{one.words}</span>}
                </button>
              </li>
            )
          })}
        </ul>
      ) : null}
    </div>
  )
}

async function goThere(workspace: Workspace, { project, node, ranges }: CameOf): Promise<void> {
  if (project !== null && project !== workspace.state.view?.project) await workspace.openProject(project)
  workspace.goTo(node, ranges)
}

/** Looked up anew after every Change; a stale answer is dropped. */
function useCameOf(nodes: readonly string[]): readonly CameOf[] {
  const lab = useWorkspaceState((state) => state.lab)
  const view = useWorkspaceState((state) => state.view)
  const [found, setFound] = useState<readonly CameOf[]>([])
  const key = nodes.join(' ')
  useEffect(() => {
    let isOver = false
    if (lab && view)
      void findCameOf(lab, view, key.split(' ')).then((came) => {
        if (!isOver) setFound(came)
      })
    return () => {
      isOver = true
    }
  }, [lab, view, key])
  return found
}
