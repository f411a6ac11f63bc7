/** Texts as they once stood, folded out of what was done to them. */
import type { RevisionId } from '../../lab/ids.ts'
import type { LinkNode } from '../../lab/model.ts'
import { changeText } from '../../lab/text.ts'
import type { History } from './history.ts'

/** Folds each text forward from where it was last asked for, since links mostly ask in the order of revisions. */
export class PastTexts {
  private readonly known = new Map<RevisionId, string>()
  private readonly folded = new Map<string, { text: string; count: number }>()

  /** @param captures the texts of captures by their ids; of those that are not there no position can be told */
  constructor(
    private readonly history: History,
    private readonly captures: ReadonlyMap<string, string>,
  ) {}

  /** A node's text at a revision; null where it is not known. */
  at(node: LinkNode, revision: RevisionId | null): string | null {
    if (node.kind === 'capture') return this.captures.get(node.id) ?? null
    if (revision === null) return null
    const known = this.known.get(revision)
    if (known !== undefined) return known
    const operations = this.history.texts.get(node.id) ?? []
    const until = operations.findIndex(({ toRevision }) => toRevision === revision) + 1
    if (until === 0) return null
    const text = this.fold(node.id, until)
    this.known.set(revision, text)
    return text
  }

  /** A node's text after all that was done to it; empty where it ended. */
  lastOf(node: string): string {
    return this.fold(node, this.history.texts.get(node)?.length ?? 0)
  }

  private fold(node: string, until: number): string {
    const before = this.folded.get(node)
    let { text, count } = before && before.count <= until ? before : { text: '', count: 0 }
    const operations = this.history.texts.get(node) ?? []
    for (; count < until; count++) text = changeText(text, operations[count]!.changeSet)
    this.folded.set(node, { text, count })
    return text
  }
}
