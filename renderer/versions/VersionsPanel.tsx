import type { ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
export function VersionsPanel(_: { readonly procedure: ProcedureId }): ReactNode { return null }
