/** Binds the window's state to React. */
import { createContext, useContext } from 'react'
import { useStore } from 'zustand'
import type { Workspace, WorkspaceState } from './workspace.ts'

export const WorkspaceContext = createContext<Workspace | null>(null)

/** The window's workspace. @throws Error outside of a WorkspaceContext */
export function useWorkspace(): Workspace {
  const workspace = useContext(WorkspaceContext)
  if (!workspace) throw new Error('no workspace around')
  return workspace
}

/** A part of the window's state; the component is drawn again when it changes. Select what is stored, make nothing new. */
export function useWorkspaceState<T>(select: (state: WorkspaceState) => T): T {
  return useStore(useWorkspace().store, select)
}
