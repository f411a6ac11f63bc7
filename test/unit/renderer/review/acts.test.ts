import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { forget, hear, mend, passOver } from '../../../../renderer/review/acts.ts'
import type { ListedFinding } from '../../../../renderer/review/listed.ts'
import { reviewerOf } from '../../../../renderer/review/reviewer.ts'
import {
  beginPartWith,
  beginProcedure,
  beginStep,
  carryFragment,
  rewritePart,
  undo,
  writeEntry,
} from '../../../../renderer/store/gestures.ts'
import { linksFrom, parametersOf, partsOfStep } from '../../../../renderer/store/view.ts'
import type { Workspace } from '../../../../renderer/store/workspace.ts'
import type { ReviewAnswer, ReviewRequest } from '../../../../renderer/workers/review.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import type { EntryId, ProcedureId } from '../../../../shared/lab/ids.ts'
import type { Part } from '../../../../shared/lab/model.ts'
import { reviewProcedure } from '../../../../shared/procedure/review/review.ts'
import { openTestWorkspace } from '../../support/workspace.ts'

/** A worker within the test: what it is sent and what it answers is copied, as it would be. */
class WorkerHere {
  onmessage: ((event: { data: ReviewAnswer }) => void) | null = null
  postMessage(request: ReviewRequest): void {
    const { number, document } = structuredClone(request)
    const findings = structuredClone(reviewProcedure(document))
    queueMicrotask(() => this.onmessage?.({ data: { kind: 'answer', number, findings } }))
  }
  terminate(): void {
    this.onmessage = null
  }
}

let workspace: Workspace
let procedure: ProcedureId
let part: Part
let stop: () => void

beforeEach(async () => {
  vi.stubGlobal('Worker', WorkerHere)
  workspace = (await openTestWorkspace()).workspace
  procedure = (await beginProcedure(workspace, 'Move the logger'))!
  part = (await beginStep(workspace, procedure, null))!
  stop = reviewerOf(workspace).look()
})
afterEach(() => {
  stop()
  vi.unstubAllGlobals()
})

const textOf = (one: Part): string | undefined => workspace.requireView().texts.get(one.id)
const partOf = (kind: Part['kind']) => partsOfStep(workspace.requireView(), part.step!).get(kind)

/** What stands open by a rule once all was read. */
async function openBy(rule: string): Promise<readonly ListedFinding[]> {
  const reviewer = reviewerOf(workspace)
  reviewer.readNow()
  return vi.waitFor(() => {
    const { listed, isReading } = reviewer.store.getState()
    expect(isReading).toBe(false)
    return listed!.open.filter((one) => one.rule === rule)
  })
}

/** Writes the step, mends the one finding of a rule, and takes it back by one undo. */
async function mendOnce(rule: string, text: string, check: () => void): Promise<void> {
  await rewritePart(workspace, part, text)
  const [finding, ...others] = await openBy(rule)
  expect(others).toEqual([])
  const before = workspace.requireView().sequence
  expect(await mend(workspace, procedure, finding!)).toBe(true)
  expect(workspace.requireView().sequence).toBe(before + 1)
  check()
  expect(await openBy(rule)).toEqual([])
  await undo(workspace)
  expect(textOf(part)).toBe(text)
  expect(await openBy(rule)).toHaveLength(1)
}

const sh = (...lines: readonly string[]): string => ['```sh', ...lines, '```'].join('\n')

describe('mending a finding is one Change with one undo', () => {
  it('edits words', () =>
    mendOnce('pasted prompt', `Mount it:\n\n${sh('$ mount /srv/readings')}`, () =>
      expect(textOf(part)).toBe(`Mount it:\n\n${sh('mount /srv/readings')}`),
    ))

  it('adds a part', async () => {
    await mendOnce('no undo', `Stop it:\n\n${sh('systemctl stop weather-logger')}`, () => {
      const added = partOf('undo')
      expect(added && textOf(added)).toContain('systemctl start weather-logger')
    })
    expect(partOf('undo')).toBeUndefined()
  })

  it('puts it into a part that stands empty', async () => {
    const step = workspace.requireView().steps.get(part.step!)!
    const empty = (await beginPartWith(workspace, step, 'undo', ''))!
    await mendOnce('no undo', `Stop it:\n\n${sh('systemctl stop weather-logger')}`, () => {
      expect(partOf('undo')?.id).toBe(empty.id)
      expect(textOf(empty)).toContain('systemctl start weather-logger')
    })
  })

  it('declares a parameter, and removes one', async () => {
    await mendOnce('undefined parameter', `Ask it:\n\n${sh('ping -c 3 ⁅logger⁆')}`, () =>
      expect(parametersOf(workspace.requireView(), procedure).map(({ name }) => name)).toEqual(['logger']),
    )
    const [finding] = await openBy('undefined parameter')
    await mend(workspace, procedure, finding!)
    await mendOnce('unused parameter', 'Ask it for its name.', () =>
      expect(parametersOf(workspace.requireView(), procedure)).toEqual([]),
    )
  })

  it('makes a parameter of a value in every place where it stands alone', async () => {
    const step = workspace.requireView().steps.get(part.step!)!
    const other = (await beginStep(workspace, procedure, step))!
    await rewritePart(workspace, other, `Log in:\n\n${sh('ssh root@192.0.2.10')}`)
    await mendOnce('literal value', `Ask it:\n\n${sh('ping -c 3 192.0.2.10')}`, () => {
      expect(textOf(part)).toContain('ping -c 3 ⁅address⁆')
      expect(textOf(other)).toContain('⁅address⁆')
    })
  })

  it('moves a warning to the caution, in front of which it should have stood', async () => {
    const text = 'Format the disk.\n\n**Warning:** All readings on it are lost.\n\nWait.'
    await mendOnce('late caution', text, () => {
      expect(textOf(part)).toBe('Format the disk.\n\nWait.')
      expect(textOf(partOf('caution')!)).toBe('**Warning:** All readings on it are lost.')
    })
    const step = workspace.requireView().steps.get(part.step!)!
    await beginPartWith(workspace, step, 'caution', '**Notice:** The lamp is hot.')
    await mendOnce('late caution', 'Format the disk.\n\n**Warning:** All readings are lost.', () => {
      expect(textOf(part)).toBe('Format the disk.')
      expect(textOf(partOf('caution')!)).toBe(
        '**Notice:** The lamp is hot.\n\n**Warning:** All readings are lost.',
      )
    })
  })

  it('is refused where the text is another than the one that was read', async () => {
    await rewritePart(workspace, part, `Mount it:\n\n${sh('$ mount /srv/readings')}`)
    const [finding] = await openBy('pasted prompt')
    await rewritePart(workspace, part, `Now mount it:\n\n${sh('$ mount /srv/readings')}`)
    const before = workspace.requireView().sequence
    expect(await mend(workspace, procedure, finding!)).toBe(false)
    expect(workspace.requireView().sequence).toBe(before)
    expect(workspace.state.notices.at(-1)?.words).toContain('changed meanwhile')
  })
})

describe('links', () => {
  /** Carries a whole entry into the step, behind what stands there. */
  async function carryIn(text: string): Promise<void> {
    await writeEntry(workspace, { kind: 'action', text }, 'draft')
    const view = workspace.requireView()
    const id = [...view.entries.keys()].at(-1) as EntryId
    const { revision } = (await workspace.requireLab().queries.standing(id))!
    const { id: lab } = workspace.requireLab()
    const from = { lab, node: { kind: 'entry', id }, revision, title: '', address: null, text } as const
    const fragment = pickFragment({ ...from, origin: { kind: 'entry', entryKind: 'action' } }, [
      { start: 0, end: text.length },
    ])!
    const place = {
      at: 'text',
      part: part.id,
      step: part.step!,
      kind: 'do',
      offset: textOf(part)!.length,
    } as const
    const carried = await carryFragment(workspace, fragment, place, 'button')
    expect(carried.ok).toBe(true)
  }
  const carriedWords = (one: Part): string[] =>
    linksFrom(workspace.requireView(), one.id).flatMap(({ id }) =>
      workspace
        .requireView()
        .states.get(id)!
        .newer.places.map((place) => (place ? textOf(one)!.slice(place.start, place.end) : 'loose')),
    )

  it('that lead from words beside the mended ones stay where they are', async () => {
    await rewritePart(workspace, part, 'Utilize the lamp by the door.')
    await carryIn('The fuse is in the hall.')
    expect(carriedWords(part)).toEqual(['The fuse is in the hall.'])
    const [finding] = await openBy('plain verb')
    expect(await mend(workspace, procedure, finding!)).toBe(true)
    expect(textOf(part)).toMatch(/^Use the lamp/)
    expect(carriedWords(part)).toEqual(['The fuse is in the hall.'])
    const [link] = linksFrom(workspace.requireView(), part.id)
    expect(workspace.requireView().states.get(link!.id)).toMatchObject({
      type: 'quotes',
      kept: 1,
      loose: false,
    })
  })

  it('of words that move to the caution are there too, and lead to the same entry', async () => {
    await rewritePart(workspace, part, 'Format the disk.')
    await carryIn('Warning: All readings on it are lost.')
    const [old] = linksFrom(workspace.requireView(), part.id)
    const [finding] = await openBy('late caution')
    expect(await mend(workspace, procedure, finding!)).toBe(true)
    const caution = partOf('caution')!
    expect(carriedWords(caution)).toEqual(['Warning: All readings on it are lost.'])
    const [moved] = linksFrom(workspace.requireView(), caution.id)
    expect(moved!.older).toEqual(old!.older)
    expect(workspace.requireView().states.get(moved!.id)).toMatchObject({ type: 'quotes', loose: false })
    expect(await workspace.requireLab().rebuild()).toBe(true)
    await undo(workspace)
    expect(carriedWords(part)).toEqual(['Warning: All readings on it are lost.'])
  })
})

describe('passing over', () => {
  it('takes the finding off the open ones with its reason, and hearing it again brings it back', async () => {
    await rewritePart(workspace, part, 'Wait long enough.')
    const [finding] = await openBy('vague words')
    expect(await passOver(workspace, procedure, finding!, 'The lamp says so.')).toBe(true)
    const { listed } = reviewerOf(workspace).store.getState()
    expect(listed!.passedOver.map(({ rule, silence }) => [rule, silence.reason])).toEqual([
      ['vague words', 'The lamp says so.'],
    ])
    expect(await openBy('vague words')).toEqual([])
    expect(await hear(workspace, reviewerOf(workspace).store.getState().listed!.passedOver[0]!)).toBe(true)
    expect(await openBy('vague words')).toHaveLength(1)
    await undo(workspace)
    expect(await openBy('vague words')).toEqual([])
  })

  it('ends when the words change', async () => {
    await rewritePart(workspace, part, 'Wait long enough.')
    const [finding] = await openBy('vague words')
    await passOver(workspace, procedure, finding!, 'The lamp says so.')
    await rewritePart(workspace, part, 'Wait until it is properly dark.')
    expect((await openBy('vague words')).map(({ words }) => words)).toEqual(['properly'])
  })

  it('is still known when the words have changed, holds again when they come back, and is forgotten by one act', async () => {
    await rewritePart(workspace, part, 'Wait long enough.')
    const [finding] = await openBy('vague words')
    await passOver(workspace, procedure, finding!, 'The lamp says so.')
    const spent = () =>
      reviewerOf(workspace)
        .store.getState()
        .listed!.spent.map(({ words }) => words)
    await rewritePart(workspace, part, 'Wait for two minutes.')
    await openBy('vague words')
    expect(spent()).toEqual(['enough'])
    await rewritePart(workspace, part, 'Wait long enough.')
    expect(await openBy('vague words')).toEqual([])
    expect(spent()).toEqual([])
    await rewritePart(workspace, part, 'Wait for two minutes.')
    await openBy('vague words')
    expect(await forget(workspace, reviewerOf(workspace).store.getState().listed!.spent[0]!)).toBe(true)
    expect(spent()).toEqual([])
    expect(workspace.requireView().silences.size).toBe(0)
    await undo(workspace)
    expect(spent()).toEqual(['enough'])
  })
})
