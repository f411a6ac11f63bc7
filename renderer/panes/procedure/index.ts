/** The right pane: numbered steps, distilled from the journal, each part with where it came from. */
import './procedure.css'
import './rows.css'

export { showPart } from './bringing.ts'
export { CarryList } from './CarryList.tsx'
export { usePane as useProcedurePaneState } from './paneStore.ts'
export { useProcedurePane } from './useProcedurePane.tsx'
