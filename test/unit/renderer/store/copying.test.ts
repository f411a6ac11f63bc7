/** Words that are copied out of one part and pasted into another, of the same procedure or of another one. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { takePasted, writeFragment } from '../../../../renderer/editor/fragments.ts'
import { carryTo } from '../../../../renderer/store/carrying.ts'
import { settleInPast } from '../../../../shared/distil/settlePast.ts'
import { fragmentToJson, wordsOfFragment, type Fragment } from '../../../../shared/distil/fragment.ts'
import { addProcedure, removePart } from '../../../../shared/lab/acts.ts'
import type { PartId } from '../../../../shared/lab/ids.ts'
import type { Revision } from '../../../../shared/lab/model.ts'
import { changeBetween, foldText, toStorableText } from '../../../../shared/lab/text.ts'
import { makeSelector } from '../../../../shared/provenance/selectors.ts'
import { hostile, picked } from '../../support/fragments.ts'
import { carriedTwice, fragmentOfPart, rewrite } from '../trace/scene.ts'

/** A clipboard that holds texts by their types. */
function clipboard(lineEnd = '\n') {
  const held = new Map<string, string>()
  return {
    types: ['text/plain'],
    setData: (type: string, text: string) => void held.set(type, text),
    getData: (type: string) => {
      const text = held.get(type) ?? ''
      return type === 'text/plain' ? text.replaceAll('\n', lineEnd) : text
    },
    held,
  }
}
type Clipboard = ReturnType<typeof clipboard>
const asTransfer = (one: Clipboard): DataTransfer => one as unknown as DataTransfer

describe('a fragment on the clipboard', () => {
  it('is taken back as it was, whatever line ends the system makes of its words', () => {
    fc.assert(
      fc.property(hostile, fc.array(fc.nat(997), { minLength: 2, maxLength: 6 }), fc.nat(2), (raw, at, n) => {
        const fragment = picked(toStorableText(raw), at, n)
        if (!fragment) return
        for (const lineEnd of ['\n', '\r\n', '\r']) {
          const board = clipboard(lineEnd)
          writeFragment(asTransfer(board), fragment)
          expect(takePasted(asTransfer(board))).toEqual(fragment)
        }
      }),
    )
  })

  it('is not taken where the words beside it are other ones, or it holds other words than they are', () => {
    const fragment = picked('Name the disk by its PARTUUID.', [0, 30], 2)!
    const board = clipboard()
    writeFragment(asTransfer(board), fragment)
    board.held.set('text/plain', 'rm -rf /')
    expect(takePasted(asTransfer(board))).toBeNull()
    writeFragment(asTransfer(board), fragment)
    const lie: Fragment = { ...fragment, selectors: [makeSelector('Trust me.', { start: 0, end: 9 })] }
    const [type] = [...board.held.keys()]
    board.held.set(type!, fragmentToJson(lie))
    expect(takePasted(asTransfer(board))).toBeNull()
    expect(takePasted(asTransfer(clipboard()))).toBeNull()
    expect(takePasted(null)).toBeNull()
  })
})

/** A procedure with an empty scope beside the first, so that words can be pasted at any place of it. */
async function besides(text: string) {
  const made = await carriedTwice()
  const { scene } = made
  const { surroundings } = scene.lab
  const begun = addProcedure(surroundings, scene.project, 'Move the dome’s computer', text)
  await scene.commit(begun.change)
  const target = begun.purposePart.id
  const paste = async (fragment: Fragment, offset: number) =>
    carryTo(
      scene.lab,
      await scene.view(),
      fragment,
      { at: 'text', part: target, step: null, kind: 'purpose', offset },
      'copy',
    )
  const textNow = async () => (await scene.lab.queries.findText(target))!.text
  const typeNow = async () => (await scene.lab.queries.linksFrom([target])).states.map(({ type }) => type)
  return { ...made, target, paste, textNow, typeNow }
}

describe('words pasted into another procedure', () => {
  it('stand at the cursor, within a line and at its end, and quote what they were copied from', async () => {
    const { scene, part, paste, textNow, typeNow } = await besides('So: ')
    const fragment = await fragmentOfPart(scene, part, 'by its PARTUUID')
    expect((await paste(fragment, 4)).ok).toBe(true)
    expect(await textNow()).toBe('So: by its PARTUUID')
    expect((await paste(fragment, 2)).ok).toBe(true)
    expect(await textNow()).toBe('Soby its PARTUUID: by its PARTUUID')
    expect(await typeNow()).toEqual(['quotes', 'quotes'])
  })

  it('stay code within a fence that stands there, and break none', async () => {
    const { scene, paste, textNow, typeNow, step } = await besides('```sh\nrsync \n```\n')
    const page = scene.fromSource('rsync -aHAX / /mnt/new/')
    const doing = (await scene.carry(page, { at: 'step', step, kind: 'do' })) as PartId
    const fragment = await fragmentOfPart(scene, doing, '-aHAX / /mnt/new/')
    expect(fragment.fence).toBe('sh')
    expect((await paste(fragment, '```sh\nrsync '.length)).ok).toBe(true)
    expect(await textNow()).toBe('```sh\nrsync -aHAX / /mnt/new/\n```\n')
    expect(await typeNow()).toEqual(['quotes'])
  })

  it('quote the text as it was when they were copied, where that has changed since', async () => {
    const { scene, part, paste, textNow, target } = await besides('')
    const copied = { ...(await fragmentOfPart(scene, part, 'the disk')), revision: null }
    const before = (await scene.lab.queries.standing(part))!.revision
    await rewrite(scene, { kind: 'part', id: part }, (text) => text.replace('the disk', 'every drive'))
    expect((await paste(copied, 0)).ok).toBe(true)
    expect(await textNow()).toBe('the disk')
    const { links, states } = await scene.lab.queries.linksFrom([target])
    expect(links[0]!.older).toMatchObject({ node: { id: part }, revision: before })
    expect(states[0]!.type).toBe('quotes')
    expect(await scene.lab.rebuild()).toBe(true)
  })

  it('come with no link where what they were copied from is gone, which is said', async () => {
    const { scene, part, paste, textNow } = await besides('')
    const copied = { ...(await fragmentOfPart(scene, part, 'the disk')), revision: null }
    const [standing] = await scene.lab.queries.standingParts([(await scene.lab.queries.findPart(part))!])
    await scene.commit(removePart(scene.lab.surroundings, standing!))
    expect(await paste(copied, 0)).toMatchObject({ ok: false, code: 'moved' })
    expect(await textNow()).toBe('')
  })

  it('are refused out of another lab', async () => {
    const { scene, part, paste } = await besides('')
    const copied = { ...(await fragmentOfPart(scene, part)), lab: scene.project as never }
    expect(await paste(copied, 0)).toMatchObject({ ok: false, code: 'other-lab' })
  })
})

it('the past in which words are found is the newest in which they stood at their places', () => {
  const wordings = fc.array(fc.string({ unit: fc.constantFrom('a', 'b', ' '), maxLength: 6 }), {
    minLength: 1,
    maxLength: 6,
  })
  fc.assert(
    fc.property(wordings, fc.nat(5), fc.nat(5), fc.nat(5), (texts, which, a, b) => {
      const revisions = texts.map((text, i) => ({
        id: `r${i}`,
        changeSet: changeBetween(texts[i - 1] ?? '', text),
      })) as unknown as Revision[]
      const text = texts[which % texts.length]!
      const [start, end] = [Math.min(a, b) % (text.length + 1), Math.max(a, b) % (text.length + 1)]
      if (start >= end) return
      const fragment = { selectors: [makeSelector(text, { start, end })] } as unknown as Fragment
      const words = wordsOfFragment(fragment)
      const expected = revisions.filter(
        (_, i) => foldText(revisions.slice(0, i + 1)).slice(start, end) === words,
      )
      expect(settleInPast(fragment, revisions)?.revision).toBe(expected.at(-1)!.id)
    }),
  )
})
