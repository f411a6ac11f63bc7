/** How texts begin and end within a Change. */
import type { Operation } from './change.ts'
import type { RevisionId } from './ids.ts'
import type { Surroundings } from './making.ts'
import type { TextNode } from './model.ts'
import { deletingAll, insertingAll, toStorableText } from './text.ts'

/** A text's first revision. */
export function beginText(around: Surroundings, node: TextNode, text: string): Operation & { op: 'text' } {
  return {
    op: 'text',
    node,
    fromRevision: null,
    changeSet: insertingAll(toStorableText(text)),
    toRevision: around.ids.make(),
    restores: null,
    ends: false,
  }
}

/** A text's last revision, when its node goes. */
export function endText(
  around: Surroundings,
  node: TextNode,
  text: StandingText,
): Operation & { op: 'text' } {
  return {
    op: 'text',
    node,
    fromRevision: text.revision,
    changeSet: deletingAll(text.text.length),
    toRevision: around.ids.make(),
    restores: null,
    ends: true,
  }
}

/** A text as it stands, with the revision that says so. */
export interface StandingText {
  readonly text: string
  readonly revision: RevisionId
}
