import { ChangeSet, Text } from '@codemirror/state'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { OpenLab } from '../../../../renderer/db/lab.ts'
import { TextSession } from '../../../../renderer/editor/textSession.ts'
import { carry } from '../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import { addEntry, addProcedure, addProject, addStep } from '../../../../shared/lab/acts.ts'
import type { StoredChange } from '../../../../shared/lab/change.ts'
import type { LabId, WindowId } from '../../../../shared/lab/ids.ts'
import { insertedBy } from '../../../../shared/lab/text.ts'
import type { Part } from '../../../../shared/lab/model.ts'
import { memoryStorage, repeatableSurroundings } from '../../support/lab.ts'

/** An editor without a screen: keeps its text as the session says, and types tokens that occur once in the world. */
class Typist {
  doc = Text.empty
  session!: TextSession
  constructor(readonly lab: OpenLab) {}

  async open(part: Part, window: WindowId): Promise<void> {
    const session = await TextSession.open(
      this.lab,
      { kind: 'part', id: part.id },
      { window, cutsByItself: true },
      {
        onRemote: (changes) => (this.doc = changes.apply(this.doc)),
        onState: () => undefined,
        onCut: () => undefined,
      },
    )
    this.session = session!
    this.doc = Text.of(session!.text.split('\n'))
  }

  type(token: string, where: number): void {
    const at = where % (this.doc.length + 1)
    const changes = ChangeSet.of({ from: at, insert: token }, this.doc.length)
    this.doc = changes.apply(this.doc)
    this.session.type(changes)
  }
}

type Act =
  | { kind: 'type'; who: 0 | 1; where: number }
  | { kind: 'cut' | 'pull' | 'undo' | 'redo' | 'carry'; who: 0 | 1 }

const who = fc.constantFrom<0 | 1>(0, 1)
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ kind: fc.constant('type' as const), who, where: fc.nat(500) }) },
  {
    weight: 5,
    arbitrary: fc.record({ kind: fc.constantFrom('cut' as const, 'pull', 'undo', 'redo', 'carry'), who }),
  },
)

const WORDS = 'mount the image'

async function world() {
  const around = repeatableSurroundings()
  const storage = memoryStorage()
  const id = around.ids.make<LabId>()
  const labs = [await OpenLab.open(id, storage, around), await OpenLab.open(id, storage, around)] as const
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  const entry = addEntry(around, { project: project.id, kind: 'action', text: WORDS })
  const procedure = addProcedure(around, project.id, 'Move')
  const step = addStep(around, procedure.procedure.id, 'a0')
  await labs[0].committer.commitAll([change, entry.change, procedure.change, step.change])
  const typists = [new Typist(labs[0]), new Typist(labs[1])] as const
  for (const typist of typists) await typist.open(step.part, around.ids.make<WindowId>())
  const fragment = pickFragment(
    {
      lab: id,
      node: { kind: 'entry', id: entry.entry.id },
      revision: entry.revision,
      origin: { kind: 'entry', entryKind: 'action' },
      title: '',
      address: null,
      text: WORDS,
    },
    [{ start: 0, end: WORDS.length }],
  )!
  return { around, labs, typists, part: step.part, fragment, floor: await labs[0].queries.sequence() }
}

type World = Awaited<ReturnType<typeof world>>

async function perform(it: World, act: Act, token: () => string): Promise<void> {
  const typist = it.typists[act.who]
  switch (act.kind) {
    case 'type':
      return typist.type(token(), act.where)
    case 'cut':
      return typist.session.cut()
    case 'pull':
      return typist.session.pull()
    case 'undo': {
      await typist.session.cut()
      const { undo } = await typist.lab.committer.findTargets()
      if (undo && undo.sequence > it.floor) await typist.lab.committer.undo()
      return typist.session.pull()
    }
    case 'redo':
      await typist.session.cut()
      await typist.lab.committer.redo()
      return typist.session.pull()
    case 'carry': {
      await typist.session.cut()
      const text = (await typist.lab.queries.standing(it.part.id))!
      const landing = { at: 'text', part: it.part, text, offset: text.text.length } as const
      await typist.lab.committer.commit(carry(it.around, it.fragment, landing, 'drag').change)
      return typist.session.pull()
    }
  }
}

/** The Changes that hold at the end: every one but those that an undo or redo that holds has taken back. */
function holding(changes: readonly StoredChange[]): StoredChange[] {
  const reversed = new Set<string>()
  for (const change of [...changes].reverse())
    if (change.reverses && !reversed.has(change.id)) reversed.add(change.reverses)
  return changes.filter(({ id }) => !reversed.has(id))
}

describe('two windows on one text', () => {
  it('lose no character by interleaved typing, carrying and undo, and end with the same text', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(act, { maxLength: 40 }), async (acts) => {
        const it = await world()
        let count = 0
        const typed: string[] = []
        const token = (): string => {
          typed.push(`<${++count}>`)
          return typed.at(-1)!
        }
        for (const one of acts) await perform(it, one, token)
        for (const { session } of [...it.typists, ...it.typists]) await session.cut()
        for (const { session } of it.typists) await session.pull()
        const stored = (await it.labs[0].queries.standing(it.part.id))!.text
        expect(it.typists.map(({ doc }) => doc.toString())).toEqual([stored, stored])
        const changes = await it.labs[0].queries.changesAfter(it.floor)
        const isWrite = ({ act }: StoredChange): boolean => act === 'write'
        const standing = holding(changes).filter(isWrite)
        expect(charactersOf(changes.filter(isWrite).map(typedBy).join(''))).toEqual(
          charactersOf(typed.join('')),
        )
        expect(charactersOf(stored)).toEqual(charactersOf(standing.map(typedBy).join('')))
        expect(await it.labs[0].rebuild()).toBe(true)
        for (const { session } of it.typists) await session.close()
      }),
      { numRuns: 60 },
    )
  }, 60_000)
})

function typedBy({ operations }: StoredChange): string {
  return operations.map((one) => (one.op === 'text' ? insertedBy(one.changeSet) : '')).join('')
}

/** The characters of tokens, sorted; the carried words hold none of them. */
function charactersOf(text: string): string[] {
  return [...text].filter((character) => /[<>0-9]/.test(character)).sort()
}
