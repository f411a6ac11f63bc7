/** Puts a text on the clipboard by the host, since the page in Electron has no leave of its own to do so. */
import type { Workspace } from './workspace.ts'

/** @param done what is said when it was copied, a sentence; by itself it does not repeat the text */
export async function copyText(workspace: Workspace, text: string, done = 'Copied.'): Promise<void> {
  const copied = await workspace.host.copyText({ text })
  workspace.say(copied.ok ? 'done' : 'problem', copied.ok ? done : copied.sentence)
}
