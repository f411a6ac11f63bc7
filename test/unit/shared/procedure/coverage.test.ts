import { describe, expect, it } from 'vitest'
import { leaveOut } from '../../../../shared/lab/acts.ts'
import type { Parameter, Place } from '../../../../shared/lab/model.ts'
import { omissionsOf } from '../../../../shared/procedure/coverage/omissions.ts'
import { barOf, countsOf, wordsOfCounts } from '../../../../shared/procedure/coverage/summary.ts'
import { outcomesOfUnits, unitsOf } from '../../../../shared/procedure/coverage/units.ts'
import { fetchListOf } from '../../../../shared/procedure/fetches/fetchList.ts'
import { around, journalOf, markOf, procedureOf, ran, withTexts, type StepTexts } from './support/records.ts'

const on = (host: string): Place => ({ machine: null, host, user: 'root', directory: '/root' })
const sh = (...commands: string[]): string => `\`\`\`sh\n${commands.join('\n')}\n\`\`\``

function cover(inputs: Parameters<typeof journalOf>[0], steps: readonly StepTexts[], extra = {}) {
  const journal = journalOf(inputs)
  const { records, texts } = procedureOf(steps)
  const all = withTexts(journal, texts)
  const coverage = omissionsOf(all, { ...records, ...extra })
  const missing = coverage.omissions.map(({ deed }) => deed.text)
  return { journal: { ...all, list: journal.list }, records, coverage, missing }
}

describe('coverage', () => {
  it('takes sudo, quoting, the order of options and units for the same', () => {
    const { missing } = cover(
      [ran("sudo systemctl enable --now 'chrony.service'"), ran('apt-get install -y nginx')],
      [{ do: sh('systemctl --now enable chrony', 'apt install nginx') }],
    )
    expect(missing).toEqual([])
  })

  it('never takes commands on two machines for the same, and one on an unknown machine for any', () => {
    const inputs = [ran('systemctl restart chrony', 0, on('gate'))]
    expect(cover(inputs, [{ do: sh('systemctl restart chrony'), place: on('clock') }]).missing).toHaveLength(
      1,
    )
    expect(cover(inputs, [{ do: sh('systemctl restart chrony'), place: on('gate') }]).missing).toEqual([])
    expect(cover(inputs, [{ do: sh('systemctl restart chrony') }]).missing).toEqual([])
    const far = [ran("ssh gate 'systemctl restart chrony'", 0, on('desk'))]
    expect(cover(far, [{ do: sh('systemctl restart chrony'), place: on('gate') }]).missing).toEqual([])
    expect(cover(far, [{ do: sh('systemctl restart chrony'), place: on('desk') }]).missing).toHaveLength(1)
  })

  it('puts carried values in the placeholders’ places, and lets one without a value stand for any word', () => {
    const parameter = (carried: string | null): Parameter => ({
      ...{
        id: around.ids.make(),
        procedure: around.ids.make(),
        name: 'name',
        type: 'host name',
        example: '',
      },
      ...{ preset: '', rule: null, help: '', carried, position: 'a0' },
    })
    const inputs = [ran('hostnamectl set-hostname gate')]
    const steps = [{ do: sh('hostnamectl set-hostname ⁅name⁆') }]
    expect(cover(inputs, steps).missing).toHaveLength(1)
    expect(cover(inputs, steps, { parameters: [parameter('gate')] }).missing).toEqual([])
    expect(cover(inputs, steps, { parameters: [parameter('weather')] }).missing).toHaveLength(1)
    expect(cover(inputs, steps, { parameters: [parameter(null)] }).missing).toEqual([])
  })

  it('treats a file’s state as the command that sets it', () => {
    const file = {
      ...{ path: '/etc/motd', owner: null, group: null, mode: null, form: 'content' as const },
      ...{ endsWithNewline: true, lineEnds: 'lf' as const, blob: null },
    }
    const state = { kind: 'file' as const, text: '```\nClear skies\n```', file }
    const command = ran("echo 'Clear skies' | sudo tee /etc/motd")
    expect(cover([state], [{ do: sh("cat > /etc/motd <<'END'\nClear skies\nEND") }]).missing).toEqual([])
    expect(cover([command], [{ do: sh("echo 'Clear skies' > /etc/motd") }]).missing).toEqual([])
    expect(cover([state], [{ do: sh("echo 'Clouds' > /etc/motd") }]).missing).toEqual(['/etc/motd'])
    expect(cover([state], [{ do: sh("echo 'Clear skies' > /etc/issue") }]).missing).toEqual(['/etc/motd'])
  })

  it('leaves out what failed, was undone or replaced, and keeps what was open around other work', () => {
    const { missing } = cover(
      [
        ran('useradd orla', 9),
        ran('touch /root/try'),
        ran('rm /root/try'),
        ran('echo a > /etc/motd'),
        ran('echo b > /etc/motd'),
        ran('systemctl stop nginx'),
        ran('cp new.conf /etc/nginx/nginx.conf'),
        ran('systemctl start nginx'),
        ran('usermod -L orla'),
        ran('usermod -U orla'),
      ],
      [],
    )
    expect(new Set(missing)).toEqual(
      new Set([
        'echo b > /etc/motd',
        'systemctl stop nginx',
        'cp new.conf /etc/nginx/nginx.conf',
        'systemctl start nginx',
      ]),
    )
  })

  it('never counts an unknown outcome as succeeded, and listens to marks', () => {
    const { coverage, journal, records } = cover([ran('groupadd observers', null)], [])
    expect([coverage.omissions.length, coverage.uncertain.length]).toEqual([0, 1])
    const entry = journal.list[0]!
    const marks = new Map([[entry.id, [markOf(entry, 'succeeded')]]])
    expect(omissionsOf({ ...journal, marks }, records).omissions).toHaveLength(1)
    const failed = new Map([[entry.id, [markOf(entry, 'failed')]]])
    expect(omissionsOf({ ...journal, marks: failed }, records)).toMatchObject({
      omissions: [],
      uncertain: [],
    })
  })

  it('sets apart what was left out with a reason', () => {
    const { journal, records } = cover([ran('groupadd observers')], [])
    const what = { entry: journal.list[0]!.id, command: null }
    const { leftOut } = leaveOut(around, records.procedure.id, what, 'By hand.')
    const coverage = omissionsOf(journal, { ...records, leftOut: [leftOut] })
    expect(coverage.omissions).toEqual([])
    expect(coverage.leftOut.map(({ says }) => says.reason)).toEqual(['By hand.'])
  })

  it('says of each command of the procedure why no entry shows that it worked', () => {
    const { coverage } = cover(
      [ran('apt install nginx'), ran('apt install chrony', null), ran('apt install nftables', 100)],
      [{ do: sh('apt install nginx', 'apt install chrony', 'apt install nftables', 'apt install zsh') }],
    )
    expect(coverage.unproven.map(({ text, why }) => [text, why])).toEqual([
      ['apt install chrony', 'unknown'],
      ['apt install nftables', 'failed'],
      ['apt install zsh', 'never'],
    ])
  })

  it('counts for a picture, in shares that make one', () => {
    const { coverage } = cover(
      [ran('apt install nginx'), ran('apt install chrony'), ran('apt install zsh', null)],
      [{ do: sh('apt install nginx') }],
    )
    const counts = countsOf(coverage)
    expect(counts).toEqual({ covered: 1, leftOut: 0, missing: 1, uncertain: 1, all: 3, unproven: 0 })
    expect(barOf(counts).reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1)
    expect(wordsOfCounts(counts)).toBe(
      'Of what changed something, 1 of 3 have a counterpart, 1 is missing, of 1 the outcome or the effect is unknown.',
    )
  })
})

describe('an omission', () => {
  it('names the steps of its covered neighbours, and why it is likely to be missed', () => {
    const { coverage, records } = cover(
      [
        ran('apt install chrony', 0, on('gate')),
        ran('mkdir -p /srv/readings', 0, on('gate')),
        ran('touch /srv/readings/today.csv', 0, on('gate')),
        ran('chown logger /srv/readings/today.csv', 0, on('gate')),
      ],
      [{ do: sh('apt install chrony') }, { do: sh('chown logger /srv/readings/today.csv') }],
    )
    const steps = records.steps.map(({ id }) => id)
    const made = coverage.omissions.find(({ deed }) => deed.text.startsWith('mkdir'))!
    expect(made.near).toEqual({ before: [steps[0]], behind: [steps[1]] })
    expect(made.reasons).toContain('leaned')
    expect(made.reasons).toContain('between')
  })

  it('of a long journal is found without comparing each deed with each other', () => {
    const inputs = Array.from({ length: 2000 }, (_, n) => ran(`systemctl restart unit${n}`, 0, on('gate')))
    const began = performance.now()
    expect(cover(inputs, []).missing).toHaveLength(2000)
    expect(performance.now() - began).toBeLessThan(8000)
  })
})

describe('the outcome of a list', () => {
  it.each([
    ['a && b', 'succeeded', ['succeeded', 'succeeded']],
    ['a; b', 'succeeded', ['unknown', 'succeeded']],
    ['a || b', 'succeeded', ['unknown', 'unknown']],
    ['a && b', 'failed', ['unknown', 'unknown']],
    ['a; b', 'failed', ['unknown', 'failed']],
    ['a', 'failed', ['failed']],
    ['a && b', 'unknown', ['unknown', 'unknown']],
  ] as const)('%s that %s is known of its parts as %j', (command, whole, wanted) => {
    expect(outcomesOfUnits(unitsOf(command), whole)).toEqual(wanted)
  })
})

describe('what to fetch beforehand', () => {
  it('is each thing once, with the parts that want it and what is known of it', () => {
    const { records, texts } = procedureOf([
      { do: sh('sudo apt-get install -y nginx smartmontools') },
      { do: sh('apt install nginx', 'curl -O https://example.org/a.tar.gz'), why: 'Not `apt install zsh`.' },
    ])
    const known = {
      ...{ id: around.ids.make(), procedure: records.procedure.id, item: 'package nginx' },
      ...{ fetched: around.clock.now(), sha256: null },
    } as const
    const { items, stale } = fetchListOf(records, { texts, machines: [] }, [known as never])
    expect(items.map(({ item, wanted, record }) => [item, wanted.length, record?.id ?? null])).toEqual([
      ['package nginx', 2, known.id],
      ['package smartmontools', 1, null],
      ['download https://example.org/a.tar.gz', 1, null],
    ])
    expect(stale).toEqual([])
  })
})
