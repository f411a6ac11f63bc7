/** What is being printed, in this window only. Created without React. */
import { create } from 'zustand'
import type { Parameter } from '../../shared/lab/model.ts'
import type { ListedFetch } from '../../shared/procedure/fetches/written.ts'
import type { Values } from '../../shared/procedure/values/placeholders.ts'
import type { ShownProcedure } from '../panes/procedure/shown.ts'

export interface PrintJob {
  /** With its values filled in, but for secrets, where it is made for another host. */
  readonly shown: ShownProcedure
  readonly parameters: readonly Parameter[]
  /** What was filled in and is no secret. */
  readonly values: Values
  /** Secrets, where the person said that this paper may hold them. They stand in no text that is read as Markdown. */
  readonly secrets: Values
  readonly fetches: readonly ListedFetch[]
  /** "Version 3", or what it differs from. */
  readonly version: string
  /** When it is printed: `2026-05-01 19:18`. */
  readonly printed: string
}

export const usePrinting = create<{ readonly job: PrintJob | null }>(() => ({ job: null }))
