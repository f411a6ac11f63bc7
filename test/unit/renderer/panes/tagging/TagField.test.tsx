// @vitest-environment happy-dom
import { act } from 'react'
import { afterEach, describe, expect, it, vi } from 'vitest'
import type { OpenLab } from '../../../../../renderer/db/lab.ts'
import { LabRegistry } from '../../../../../renderer/db/labs.ts'
import { askerOf } from '../../../../../renderer/panes/tagging/asking.ts'
import { TagField } from '../../../../../renderer/panes/tagging/index.ts'
import { undo } from '../../../../../renderer/store/gestures.ts'
import { WorkspaceContext, useWorkspaceState } from '../../../../../renderer/store/useWorkspace.ts'
import { Workspace, type WorkspaceParts } from '../../../../../renderer/store/workspace.ts'
import {
  TagAsker,
  type TagMessage,
  type TagRequest,
  type TagWorker,
} from '../../../../../renderer/workers/tags.ts'
import { TagLearner } from '../../../../../renderer/workers/tagsLearner.ts'
import * as acts from '../../../../../shared/lab/acts.ts'
import type { EntryId, SourceId, WindowId } from '../../../../../shared/lab/ids.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../../support/lab.ts'
import { createScreen, type Screen } from '../../ui/screen.ts'

/** The worker's own code in this thread; answers come later, as a worker's do. */
function startHere(lab: OpenLab): TagWorker {
  const worker: TagWorker = { onmessage: null, onerror: null, postMessage, terminate: () => undefined }
  const say = (data: TagMessage): void => worker.onmessage?.({ data })
  const learner = new TagLearner(lab.queries, (share) => say({ kind: 'progress', share }))
  function postMessage({ call, number, argument }: TagRequest): void {
    if (call === 'open') return
    void learner.suggest(argument).then((answer) => say({ kind: 'answer', number, answer }))
  }
  return worker
}

async function openBench() {
  const around = repeatableSurroundings()
  const storage = memoryStorage()
  const lab = await openTestLab(around, storage)
  const { project, change } = acts.addProject(around, {
    title: 'Quiet the dome',
    aim: '',
    status: 'under way',
  })
  const sources = [
    ['Rollers', 'The dome turns on rollers.', ['dome', 'upkeep']],
    ['Frost', 'The shutter of the dome sticks in frost; thaw the shutter.', []],
  ].map(([title, text, tags]) =>
    acts.addSource(around, {
      title: title as string,
      address: null,
      kind: 'text',
      wayIn: 'file',
      projects: [project.id],
      capture: {
        text: text as string,
        bytes: new Uint8Array(),
        sha256: String((text as string).length).padStart(64, '0'),
        mediaType: 'text/plain',
      },
      tags: tags as string[],
    }),
  )
  const entry = acts.addEntry(around, { project: project.id, kind: 'fix', text: 'Greased the dome.' })
  await lab.committer.commitAll([change, ...sources.map((source) => source.change), entry.change])
  const first = (await lab.queries.findSource(sources[0]!.source.id))!
  await lab.committer.commit(acts.changeSource(around, first, { tags: ['dome', 'upkeep'] }))
  const workspace = new Workspace({
    registry: new LabRegistry(storage),
    openLab: () => Promise.resolve(lab),
    window: around.ids.make<WindowId>(),
  } as unknown as WorkspaceParts)
  await workspace.openLab(lab.id)
  askerOf(workspace, () => new TagAsker(lab.id, () => startHere(lab)))
  return { lab, workspace, source: sources[1]!.source.id, entry: entry.entry.id }
}
type Bench = Awaited<ReturnType<typeof openBench>>

function SourceTags({ id }: { readonly id: SourceId }) {
  const record = useWorkspaceState((state) => state.labSources?.sources.get(id))
  return record ? <TagField thing={{ kind: 'source', record }} /> : null
}

function EntryTags({ id, onClose }: { readonly id: EntryId; readonly onClose: () => void }) {
  const record = useWorkspaceState((state) => state.view?.entries.get(id))
  const tags = useWorkspaceState((state) => state.view?.entryTags.get(id) ?? null)
  return record ? <TagField thing={{ kind: 'entry', record, tags }} autoFocus onClose={onClose} /> : null
}

let screen: Screen
let bench: Bench
afterEach(() => {
  screen.clear()
  bench.workspace.set({ lab: null })
})

async function show(onClose?: () => void): Promise<void> {
  bench = await openBench()
  screen = createScreen()
  screen.draw(
    <WorkspaceContext value={bench.workspace}>
      {onClose ? <EntryTags id={bench.entry} onClose={onClose} /> : <SourceTags id={bench.source} />}
    </WorkspaceContext>,
  )
  await until(() => suggested().length > 0)
}

const all = (selector: string): HTMLElement[] => [...screen.page.querySelectorAll<HTMLElement>(selector)]
const tags = (): string[] => all('.st-tag:not(.st-tag--suggested)').map((one) => one.textContent)
const suggested = (): string[] => all('.st-tag--suggested').map((one) => one.textContent)
const input = (): HTMLInputElement => screen.find('[data-tag-input]') as HTMLInputElement
const offers = (): string[] => all('[role="option"]').map((one) => one.firstElementChild!.textContent)

/** Waits, with React's updates let through, until something holds. */
async function until(holds: () => boolean | Promise<boolean>): Promise<void> {
  for (let tries = 0; tries < 200; tries++) {
    if (await holds()) return
    await act(() => new Promise((resolve) => setTimeout(resolve, 10)))
  }
  throw new Error('it never came to that')
}

function type(words: string): void {
  act(() => {
    input().focus()
    // React listens to the element's own setter; a test goes past it, as a keyboard does.
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(input(), words)
    input().dispatchEvent(new Event('input', { bubbles: true }))
  })
}
const pressFirst = (code: string): void => screen.press('', { code, altKey: true })

describe('the field for tags', () => {
  it('adds what is typed at a comma and at Enter, each once, in the spelling that the lab has', async () => {
    await show()
    type('frost, Dome, frost,')
    await until(() => tags().length === 2)
    expect(tags()).toEqual(['frost', 'dome'])
    expect(input().value).toBe('')
    type('winter')
    screen.press('Enter')
    await until(() => tags().length === 3)
    expect((await bench.lab.queries.findSource(bench.source))!.tags).toEqual(['frost', 'dome', 'winter'])
  })

  it('offers own tags with their counts while one types, and never takes one unasked', async () => {
    await show()
    type('up')
    expect(offers()).toEqual(['upkeep'])
    expect(screen.find('[role="option"]').textContent).toContain('1 thing has it')
    expect(input().getAttribute('aria-expanded')).toBe('true')
    expect(input().getAttribute('aria-activedescendant')).toBeNull()
    screen.press('Escape')
    expect(offers()).toEqual([])
    expect(input().value).toBe('up')
    screen.press('ArrowDown')
    expect(screen.find('[aria-selected="true"]').id).toBe(input().getAttribute('aria-activedescendant'))
    screen.press('Enter')
    await until(() => tags().length === 1)
    expect(tags()).toEqual(['upkeep'])
  })

  it('takes the last tag off with Backspace in the empty line, and Ctrl+Z there brings it back', async () => {
    await show()
    type('frost,winter,')
    await until(() => tags().length === 2)
    screen.press('Backspace')
    await until(() => tags().length === 1)
    expect(tags()).toEqual(['frost'])
    screen.press('z', { ctrlKey: true })
    await until(() => tags().length === 2)
    expect(tags()).toEqual(['frost', 'winter'])
  })

  it('loses no act when two are done faster than the lab answers', async () => {
    await show(() => undefined)
    type('one,')
    type('two,')
    pressFirst('KeyA')
    await until(() => tags().length === 3)
    const [kept] = await bench.lab.queries.allEntryTags()
    expect(kept!.tags).toEqual(['one', 'two', expect.any(String)])
  })

  it('keeps typed words that are no tag yet for the thing that they were typed for', async () => {
    await show()
    type('half a wo')
    screen.draw(<WorkspaceContext value={bench.workspace}>{null}</WorkspaceContext>)
    screen.draw(
      <WorkspaceContext value={bench.workspace}>
        <EntryTags id={bench.entry} onClose={() => undefined} />
      </WorkspaceContext>,
    )
    expect(input().value).toBe('')
    screen.draw(
      <WorkspaceContext value={bench.workspace}>
        <SourceTags id={bench.source} />
      </WorkspaceContext>,
    )
    expect(input().value).toBe('half a wo')
    expect(tags()).toEqual([])
  })

  it('is left with Escape where it was opened for a while, but only once nothing is typed or offered', async () => {
    const onClose = vi.fn()
    await show(onClose)
    type('do')
    screen.press('Escape')
    screen.press('Escape')
    expect([input().value, onClose.mock.calls.length]).toEqual(['', 0])
    screen.press('Escape')
    expect(onClose).toHaveBeenCalledOnce()
  })
})

describe('suggestions in the field', () => {
  it('say that they are suggestions and why, and the first is taken with one key and remembered', async () => {
    await show()
    expect(suggested()[0]).toBe('dome')
    expect(screen.find('.st-suggested-take').getAttribute('aria-label')).toBe(
      'dome: take this suggested tag, stands in the text',
    )
    act(() => input().focus())
    pressFirst('KeyA')
    expect(suggested()).not.toContain('dome')
    await until(() => tags().length === 1)
    expect(tags()).toEqual(['dome'])
    expect(document.activeElement).toBe(input())
    const [verdict] = await bench.lab.queries.verdicts()
    expect(verdict).toMatchObject({
      tag: 'dome',
      isAccepted: true,
      node: { kind: 'source', id: bench.source },
    })
    expect(verdict!.chance).toBeGreaterThan(0.2)
  })

  it('come back neither at once nor later when they were refused, until that is undone', async () => {
    await show()
    act(() => input().focus())
    pressFirst('KeyX')
    await until(async () => (await bench.lab.queries.verdicts()).length === 1)
    await until(() => suggested().length > 0)
    expect(tags()).toEqual([])
    expect(suggested()).not.toContain('dome')
    await act(() => undo(bench.workspace))
    await until(() => suggested().includes('dome'))
  })

  it('are one stop for Tab; arrows move, Delete refuses, and the focus goes to the neighbour', async () => {
    await show()
    const takes = () => all('.st-suggested-take')
    expect(takes().filter((one) => one.tabIndex === 0)).toHaveLength(1)
    act(() => takes()[0]!.focus())
    screen.press('ArrowRight')
    expect(document.activeElement).toBe(takes()[1])
    const [, second, third] = suggested()
    screen.press('Delete')
    expect(document.activeElement!.textContent).toBe(third)
    await until(async () => (await bench.lab.queries.verdicts()).length === 1)
    expect(await bench.lab.queries.verdicts()).toMatchObject([{ tag: second, isAccepted: false }])
  })

  it('that are typed out count as taken', async () => {
    await show()
    type('dome,')
    await until(async () => (await bench.lab.queries.verdicts()).length === 1)
    expect(await bench.lab.queries.verdicts()).toMatchObject([{ tag: 'dome', isAccepted: true }])
  })

  it('are gone from the screen at once when words of them are struck out', async () => {
    await show()
    const phrase = suggested().find((one) => one.includes('shutter'))!
    expect(phrase).toBeDefined()
    const node = { kind: 'source', id: bench.source } as const
    await act(async () => {
      await bench.lab.committer.strikeOut(node, 'shutter', '')
      await bench.workspace.catchUp()
    })
    expect(screen.page.textContent).not.toContain('shutter')
    await until(() => suggested().includes('dome'))
    expect(screen.page.textContent).not.toContain('shutter')
  })
})
