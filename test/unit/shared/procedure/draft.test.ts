import { describe, expect, it } from 'vitest'
import type { LabId } from '../../../../shared/lab/ids.ts'
import type { Link, Part, Place, Step } from '../../../../shared/lab/model.ts'
import { answerProblem, type EntryInput } from '../../../../shared/lab/acts.ts'
import { changeText } from '../../../../shared/lab/text.ts'
import { acceptDraft } from '../../../../shared/procedure/draft/accept.ts'
import { draftFrom } from '../../../../shared/procedure/draft/draft.ts'
import { isSelectorTrue } from '../../../../shared/provenance/selectors.ts'
import { around, journalOf, procedureOf, ran } from './support/records.ts'

const lab = around.ids.make<LabId>()
const on = (host: string): Place => ({ machine: null, host, user: 'root', directory: '/root' })
const say = (kind: EntryInput['kind'], text: string): Omit<EntryInput, 'project'> => ({ kind, text })

const inputs = [
  say('decision', 'Only the observers come in.'),
  ran('groupadd observers', 0, on('gate')),
  ran('getent group observers', 0, on('gate')),
  say('output', '```text\nobservers:x:1002:\n```'),
  ran('echo x > /tmp/try', 0, on('gate')),
  ran('rm /tmp/try', 0, on('gate')),
  ran('systemctl restart shh', 5, on('gate')),
  ran('systemctl restart ssh', 0, on('gate')),
  say('problem', 'The door stays shut.'),
  say('fix', 'The folder was open to all.\n\n```sh\nchmod 700 /home/orla/.ssh\n```'),
  say('observation', 'sshd looks at the modes.'),
  ran('apt install chrony', 0, on('clock')),
  say('problem', 'Nobody knows why.'),
]

function setUp() {
  const journal = journalOf(inputs)
  const { list } = journal
  const answer = answerProblem(around, list[9]!.id, list[8]!.id, 'button')
  const links = answer.operations.flatMap((one) =>
    one.op === 'put' && one.table === 'links' ? [one.record] : [],
  )
  return { journal, links, draft: draftFrom(journal, { lab, chosen: null, links }) }
}

describe('a draft', () => {
  it('makes a step of what worked, with what is expected, why, and what ends a problem', () => {
    const { draft } = setUp()
    const shown = draft.rows.map(({ place, parts }) => ({
      host: place?.host,
      parts: Object.fromEntries(parts.map(({ kind, text }) => [kind, text])),
    }))
    expect(shown).toEqual([
      {
        host: 'gate',
        parts: {
          do: '```sh\ngroupadd observers\n```\n\n```sh\ngetent group observers\n```',
          expect: '```text\nobservers:x:1002:\n```',
          why: 'Only the observers come in.',
        },
      },
      {
        host: 'gate',
        parts: {
          do: '```sh\nsystemctl restart ssh\n```',
          'if it fails': `The door stays shut.\n\n${inputs[9]!.text}`,
          why: 'sshd looks at the modes.',
        },
      },
      { host: 'clock', parts: { do: '```sh\napt install chrony\n```' } },
    ])
    expect(draft.dropped.map(({ deed, entry, reason }) => [reason, deed?.text ?? entry.kind])).toEqual([
      ['undone', 'echo x > /tmp/try'],
      ['undoes', 'rm /tmp/try'],
      ['failed', 'systemctl restart shh'],
      ['no answer', 'problem'],
    ])
  })

  it('says where nothing shows that a step worked', () => {
    const journal = journalOf([ran('groupadd observers', null), ran('dome-control --park')])
    const { rows } = draftFrom(journal, { lab, chosen: null, links: [] })
    expect(rows.map(({ doubt }) => doubt)).toEqual(['outcome unknown', 'effect unknown'])
  })

  it('becomes one Change whose links hold the words at both ends, with places said once', () => {
    const { journal, draft } = setUp()
    const { records } = procedureOf([{ do: 'First.' }, { do: 'Last.' }])
    const first = records.steps[0]!
    const textOf = (id: string) => ({ text: journal.texts.get(id)!, revision: journal.revisions.get(id)! })
    const procedure = { ...records.procedure, place: on('desk') }
    const target = { procedure, steps: records.steps, after: first, textOf }
    const accepted = acceptDraft(around, target, draft.rows)
    if (!accepted.ok) throw new Error(accepted.code)
    const { change, steps } = accepted.value
    expect(change.act).toBe('draft steps')
    expect(steps.map(({ place }) => place?.host ?? null)).toEqual(['gate', null, 'clock'])
    expect(steps.every(({ position }) => position > first.position)).toBe(true)
    expect(steps.every(({ position }) => position < records.steps[1]!.position)).toBe(true)
    const texts = new Map<string, string>()
    const links: Link[] = []
    const parts: Part[] = []
    const rows: Step[] = []
    for (const one of change.operations) {
      if (one.op === 'text') texts.set(one.node.id, changeText('', one.changeSet))
      else if (one.op === 'put' && one.table === 'links') links.push(one.record)
      else if (one.op === 'put' && one.table === 'parts') parts.push(one.record)
      else if (one.op === 'put' && one.table === 'steps') rows.push(one.record)
    }
    // The row behind keeps the place that it had.
    expect(rows.find(({ id }) => id === records.steps[1]!.id)?.place?.host).toBe('desk')
    expect(new Set(links.map(({ newer }) => newer.node.id))).toEqual(new Set(parts.map(({ id }) => id)))
    for (const { way, newer, older } of links) {
      expect(way).toBe('draft')
      expect(newer.ranges.every((one) => isSelectorTrue(texts.get(newer.node.id)!, one))).toBe(true)
      expect(older.ranges.every((one) => isSelectorTrue(journal.texts.get(older.node.id)!, one))).toBe(true)
      expect(older.revision).toBe(journal.revisions.get(older.node.id))
      expect(newer.ranges.map(({ quote }) => quote.exact)).toEqual(
        older.ranges.map(({ quote }) => quote.exact),
      )
    }
  })

  it('is refused as a whole where an entry was amended since', () => {
    const { draft } = setUp()
    const { records } = procedureOf([])
    const textOf = () => ({ text: 'Other words.', revision: around.ids.make() }) as never
    const target = { procedure: records.procedure, steps: [], after: null, textOf }
    expect(acceptDraft(around, target, draft.rows)).toMatchObject({ ok: false, code: 'changed' })
  })
})
