/**
 * Learns a lab's tags and keeps up with it, Change by Change: what a Change touched is read again as it stands. What is
 * known is always what learning everything anew would give. After striking out that is done, so that nothing struck out
 * stays in memory. Reads only.
 */
import { toKnownThing, withThings, type KnownThing } from '../../shared/find/known-things.ts'
import { chanceOf, MOST_SHOWN, worthShowing } from '../../shared/find/shown-suggestions.ts'
import { suggestTags, type TagSuggestion } from '../../shared/find/suggest-tags.ts'
import { emptyTagModel, type TagModel } from '../../shared/find/tag-model.ts'
import type { TaggedNode } from '../../shared/lab/model.ts'
import type { SuggestedTag, SuggestedTags, SuggestedWhy } from './tags.ts'
import { TaggedThings, type TagQueries } from './tagsThings.ts'

/** So many things are read at once while learning. */
const BATCH = 32

/** How long an answer waits for learning to be done before it comes of the text alone, in milliseconds. */
const PATIENCE_MS = 400

/** As much of each kind as is looked through for what is worth showing. */
const wanted = { own: 2 * MOST_SHOWN, phrases: MOST_SHOWN }

interface Known {
  readonly things: TaggedThings
  readonly model: TagModel
  /** The last Change that the model includes. */
  readonly sequence: number
}

export class TagLearner {
  private known: Known | null = null
  private catching: Promise<Known>

  constructor(
    private readonly queries: TagQueries,
    /** Told how far learning is, 0 to 1, and null when it is done. */
    private readonly onLearning: (share: number | null) => void = () => undefined,
    private readonly patienceMs = PATIENCE_MS,
  ) {
    this.catching = Promise.reject(new Error('nothing was learnt yet'))
    this.catching.catch(() => undefined)
  }

  /** What is known; empty before anything was learnt, and while it is learnt anew. */
  get model(): TagModel {
    return this.known?.model ?? emptyTagModel
  }

  /** Brings what is known up to the last Change; the first time, and after striking out, by learning everything. */
  async catchUp(): Promise<TagModel> {
    return (await this.catchUpToNow()).model
  }

  /** The tags that suit a thing as it stands now; of the text alone while the tags are still being learnt. */
  async suggest(node: TaggedNode): Promise<SuggestedTags> {
    const catching = this.catchUpToNow()
    // Catching up is quick; only learning everything may take a while.
    const known = await Promise.race([catching, pause(this.patienceMs)]).then(
      (soon) => soon ?? (this.known ? catching : null),
    )
    if (known) return { tags: await this.suggestWith(known.things, known.model, node), isEarly: false }
    catching.catch(() => undefined)
    const things = new TaggedThings(this.queries)
    await things.begin()
    const own = toKnownThing({ ...(await things.read(node)), tags: [] })
    return { tags: await this.suggestWith(things, withThings(emptyTagModel, [own]), node), isEarly: true }
  }

  private async suggestWith(
    things: TaggedThings,
    model: TagModel,
    node: TaggedNode,
  ): Promise<SuggestedTag[]> {
    const { id, text, tags } = await things.read(node)
    const found = worthShowing(suggestTags(model, { ...text, id, tags }, wanted))
    return Promise.all(
      found.map(async (one) => ({
        tag: one.tag,
        chance: chanceOf(one),
        why: await whyOf(things, one),
      })),
    )
  }

  private catchUpToNow(): Promise<Known> {
    // One at a time, and a failure does not stop the next.
    this.catching = this.catching.catch(() => null).then(() => this.catchUpOnce())
    return this.catching
  }

  private async catchUpOnce(): Promise<Known> {
    const { known } = this
    if (!known) return this.learnAll()
    const changes = await this.queries.changesAfter(known.sequence)
    if (changes.length === 0) return known
    if (changes.some(({ act }) => act === 'strike out')) {
      this.known = null
      return this.learnAll()
    }
    const touched = await known.things.noteChanges(changes)
    const things = await readAll(known.things, touched, () => undefined)
    const model = withThings(known.model, things)
    return (this.known = { things: known.things, model, sequence: changes.at(-1)!.sequence })
  }

  private async learnAll(): Promise<Known> {
    this.onLearning(0)
    try {
      // What is committed while reading is read again afterwards.
      const sequence = await this.queries.sequence()
      const things = new TaggedThings(this.queries)
      const read = await readAll(things, await things.begin(), this.onLearning)
      return (this.known = { things, model: withThings(emptyTagModel, read), sequence })
    } finally {
      this.onLearning(null)
    }
  }
}

async function readAll(
  things: TaggedThings,
  nodes: readonly TaggedNode[],
  onShare: (share: number) => void,
): Promise<KnownThing[]> {
  const read: KnownThing[] = []
  for (let at = 0; at < nodes.length; at += BATCH) {
    const some = await Promise.all(nodes.slice(at, at + BATCH).map((node) => things.readToLearn(node)))
    read.push(...some.map(toKnownThing))
    onShare(Math.min(1, (at + BATCH) / nodes.length))
  }
  return read
}

async function whyOf(things: TaggedThings, { why }: TagSuggestion): Promise<SuggestedWhy> {
  if (why.from === 'text') return { kind: 'phrase' }
  const [nearest] = why.near
  if (why.isNamed) return { kind: 'named' }
  if (nearest === undefined) return { kind: 'often' }
  return { kind: 'near', ...(await things.nameOf(nearest)) }
}

function pause(ms: number): Promise<null> {
  return new Promise((resolve) => setTimeout(() => resolve(null), ms))
}
