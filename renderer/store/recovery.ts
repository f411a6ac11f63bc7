/** What was being typed when a window ended, brought back at the next start. Nothing typed is dropped. */
import { writeText } from '../../shared/lab/acts.ts'
import type { WindowId } from '../../shared/lab/ids.ts'
import type { ComposerDraft, Draft, TextDraft } from '../../shared/lab/model.ts'
import { toChangeSetJson } from '../../shared/lab/text.ts'
import type { OpenLab } from '../db/lab.ts'
import { mapDraft, textDraftKey } from '../editor/textSession.ts'

/** The key of the composer's draft for a project in one window. */
export function composerDraftKey(project: string, window: WindowId): string {
  return `composer ${project} ${window}`
}

/**
 * Takes over the drafts of windows that live no more, and this window's own from before. A part's draft becomes a
 * revision; an amendment's and the composer's are given to this window, whose panes show them.
 * @returns how many were brought back
 */
export async function recoverDrafts(
  lab: OpenLab,
  window: WindowId,
  isAlive: (id: WindowId) => boolean,
): Promise<number> {
  let count = 0
  for (const draft of await lab.queries.drafts()) {
    const isOwn = draft.window === window
    if (!isOwn && isAlive(draft.window)) continue
    if (await recoverDraft(lab, window, draft, isOwn)) count++
  }
  return count
}

async function recoverDraft(lab: OpenLab, window: WindowId, draft: Draft, isOwn: boolean): Promise<boolean> {
  if (draft.owner === 'text' && draft.node.kind === 'part') return commitDraft(lab, draft)
  if (isOwn) return false
  return draft.owner === 'composer' ? adoptComposer(lab, window, draft) : adoptAmendment(lab, window, draft)
}

async function commitDraft(lab: OpenLab, draft: TextDraft): Promise<boolean> {
  const standing = await lab.queries.standing(draft.node.id)
  const changes = standing ? await mapDraft(lab, draft, standing.text.length) : null
  if (!standing || !changes) return false
  const { change } = writeText(lab.surroundings, draft.node, standing.revision, toChangeSetJson(changes))
  return (await lab.committer.commit(change, [draft.key])).ok
}

async function adoptComposer(lab: OpenLab, window: WindowId, draft: ComposerDraft): Promise<boolean> {
  const key = composerDraftKey(draft.project, window)
  const own = (await lab.queries.drafts()).find((one) => one.key === key)
  const text = own && own.text !== '' ? `${own.text}\n\n${draft.text}` : draft.text
  return adopt(lab, draft, { ...draft, key, window, text })
}

async function adoptAmendment(lab: OpenLab, window: WindowId, draft: TextDraft): Promise<boolean> {
  const key = textDraftKey(draft.node, window)
  const isTaken = (await lab.queries.drafts()).some((one) => one.key === key)
  return !isTaken && adopt(lab, draft, { ...draft, key, window })
}

/** The new record stands before the old one goes, so that a crash between the two doubles a draft but loses none. */
async function adopt(lab: OpenLab, from: Draft, to: Draft): Promise<boolean> {
  const kept = await lab.saveDraft(to)
  if (kept.ok) await lab.dropDraft(from.key)
  return kept.ok
}
