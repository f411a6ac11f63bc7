/** The panel that is open beside the panes. Each kind has its component here. */
import type { ReactNode } from 'react'
import { FetchesPanel } from './fetches/FetchesPanel.tsx'
import { CoveragePanel } from './coverage/CoveragePanel.tsx'
import { DraftPanel } from './draft/DraftPanel.tsx'
import { HelpPanel } from './help/index.ts'
import { ProjectsPanel } from './labs/ProjectsPanel.tsx'
import { LogsPanel } from './logs/index.ts'
import { MachinesPanel } from './machines/index.ts'
import { MapPanel } from './map/index.ts'
import { FilePanel } from './panes/journal/files/FilePanel.tsx'
import { PhotosPanel } from './panes/journal/pictures/index.ts'
import { MadeForPanel } from './parameters/MadeForPanel.tsx'
import { ProvenancePanel } from './provenance/ProvenancePanel.tsx'
import { ProblemsPanel } from './problems/index.ts'
import { ReviewPanel } from './review/ReviewPanel.tsx'
import { SealPanel } from './seal/index.ts'
import type { OpenPanel } from './store/panels.ts'
import { useWorkspaceState } from './store/useWorkspace.ts'
import { VersionsPanel } from './versions/VersionsPanel.tsx'

export function OpenedPanel(): ReactNode {
  const panel = useWorkspaceState((state) => state.panel)
  return panel ? panelOf(panel) : null
}

function panelOf(panel: OpenPanel): ReactNode {
  switch (panel.kind) {
    case 'machines':
      return <MachinesPanel machine={panel.machine} />
    case 'problems':
      return <ProblemsPanel of={panel.of} />
    case 'file':
      return <FilePanel key={panel.entry} entry={panel.entry} />
    case 'logs':
      return <LogsPanel />
    case 'seal':
      return <SealPanel />
    case 'projects':
      return <ProjectsPanel />
    case 'photos':
      return <PhotosPanel />
    case 'made for':
      return <MadeForPanel key={panel.procedure} procedure={panel.procedure} />
    case 'versions':
      return <VersionsPanel key={panel.procedure} procedure={panel.procedure} found={panel.found} />
    case 'fetches':
      return <FetchesPanel key={panel.procedure} procedure={panel.procedure} />
    case 'coverage':
      return <CoveragePanel key={panel.procedure} procedure={panel.procedure} />
    case 'review':
      return <ReviewPanel panel={panel} />
    case 'draft':
      return <DraftPanel key={panel.from} from={panel.from} />
    case 'provenance':
      return <ProvenancePanel key={panel.of} of={panel.of} />
    case 'map':
      return <MapPanel />
    case 'help':
      return <HelpPanel page={panel.page} />
  }
}
