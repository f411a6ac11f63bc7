import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { faultsOf, toRule, toSaid, toTyped } from '../../../../renderer/parameters/fields.ts'
import { commandsToRun, fillProcedure, rightValues } from '../../../../renderer/parameters/filled.ts'
import { freeName, nameFault, placesOf } from '../../../../renderer/parameters/places.ts'
import { toValue } from '../../../../renderer/parameters/selected.ts'
import { unnamedFile } from '../../../../renderer/panes/procedure/fileParts.ts'
import { toExportInput } from '../../../../renderer/panes/procedure/exportInput.ts'
import { toShownProcedure } from '../../../../renderer/panes/procedure/shown.ts'
import type { ProjectView } from '../../../../renderer/store/view.ts'
import type { MachineId, ParameterId, PartId, ProcedureId, StepId } from '../../../../shared/lab/ids.ts'
import type { Machine, Parameter, Part, Procedure, Step } from '../../../../shared/lab/model.ts'
import { valueTypes } from '../../../../shared/procedure/values/types.ts'

const part = 'a part' as PartId

function parameter(fields: Partial<Parameter>): Parameter {
  return {
    id: 'a parameter' as ParameterId,
    procedure: 'a procedure' as ProcedureId,
    ...{ name: 'host', type: 'host name', example: '', preset: '', rule: null, help: '', carried: null },
    position: 'a0',
    ...fields,
  }
}

describe('a selected value', () => {
  it('has no blanks at its edges, and its place is that of the words left', () => {
    expect(toValue(part, 'ping  192.0.2.10 now', { start: 4, end: 17 })).toMatchObject({
      start: 6,
      end: 16,
      value: '192.0.2.10',
      after: ' now',
    })
  })
  it('is none over two lines, of blanks alone, or where it touches a placeholder', () => {
    expect(toValue(part, 'one\ntwo', { start: 1, end: 5 })).toBeNull()
    expect(toValue(part, 'a   b', { start: 1, end: 4 })).toBeNull()
    expect(toValue(part, 'ssh ⁅host⁆ now', { start: 2, end: 7 })).toBeNull()
  })
  it('reads a doubled sign as one, and is none where it cuts one', () => {
    expect(toValue(part, 'a ⁅⁅x b', { start: 2, end: 5 })?.value).toBe('⁅x')
    expect(toValue(part, 'a ⁅⁅x b', { start: 3, end: 5 })).toBeNull()
  })
})

describe('the places of a value', () => {
  const texts = [{ part, name: 'Do of step 1', text: 'ping 192.0.2.10 and 192.0.2.101' }]
  it('hold what was pointed at, as one that stands alone, in whichever way it stands', () => {
    const inside = { part, start: 20, end: 30 }
    const found = placesOf(texts, '192.0.2.10', 'IPv4 address', inside)
    expect(found.map(({ start, standing }) => [start, standing])).toEqual([
      [5, 'alone'],
      [20, 'alone'],
    ])
    expect(placesOf(texts, '192.0.2.10', 'IPv4 address', null)[1]).toMatchObject({ standing: 'inside' })
  })
  it('never overlap, stand in order, and show the words of their text', () => {
    const words = fc.array(fc.constantFrom('a', 'ab', 'b', ' ', '-', '.', '\n', '`'), { maxLength: 30 })
    fc.assert(
      fc.property(words, fc.nat(20), fc.integer({ min: 1, max: 3 }), (pieces, at, length) => {
        const text = pieces.join('')
        const selected = toValue(part, text, {
          start: Math.min(at, text.length),
          end: Math.min(at + length, text.length),
        })
        fc.pre(selected !== null)
        const found = placesOf([{ part, name: 'Do', text }], selected.value, 'free text', selected)
        expect(found.some(({ start, end }) => start === selected.start && end === selected.end)).toBe(true)
        for (const [i, one] of found.entries()) {
          expect(one.value).toBe(text.slice(one.start, one.end))
          expect(one.start).toBeGreaterThanOrEqual(found[i - 1]?.end ?? 0)
          expect(text.slice(0, one.start).endsWith(one.before.replace(/^… /, ''))).toBe(true)
        }
      }),
    )
  })
})

describe('a name', () => {
  it('that is proposed is always one that can be kept', () => {
    fc.assert(
      fc.property(fc.constantFrom(...valueTypes), fc.nat(5), (type, count) => {
        const others: { name: string }[] = []
        for (let i = 0; i <= count; i++) others.push({ name: freeName(type, others) })
        expect(nameFault(freeName(type, others), others)).toBeNull()
        expect(new Set(others.map(({ name }) => name)).size).toBe(others.length)
      }),
    )
  })
  it('of another parameter, with blanks or without a letter is refused with a sentence', () => {
    expect(nameFault('host', [{ name: 'host' }])).toMatch(/Another parameter/)
    expect(nameFault('new host', [])).toMatch(/“new-host” would do/)
    expect(nameFault('', [])).not.toBeNull()
    expect(nameFault('42', [])).not.toBeNull()
  })
})

describe('what is typed of a parameter', () => {
  it('comes back as it was kept', () => {
    const rule = { least: '1', most: '99', pattern: '[0-9]+' }
    const said = { name: 'port', type: 'port', example: '22', preset: '', help: 'Of ssh.', rule } as const
    expect(toSaid(toTyped(said))).toEqual(said)
  })
  it('leaves out what only another type asks for', () => {
    const typed = { ...toTyped(parameter({ type: 'host name' })), least: '1', within: '192.0.2.0/24' }
    expect(toRule(typed)).toBeNull()
    expect(toRule({ ...typed, type: 'network' })).toEqual({ within: '192.0.2.0/24' })
  })
  it('keeps no value of a secret, whatever was typed before its type was set', () => {
    const typed = { ...toTyped(parameter({ type: 'secret' })), example: 'x', preset: 'y', allowed: 'z' }
    expect(toSaid(typed)).toMatchObject({ example: '', preset: '', rule: null })
  })
  it('is refused field by field with what is wrong', () => {
    const typed = toTyped(parameter({ type: 'IPv4 address', example: '192.0.2.300', preset: '192.0.2.1' }))
    expect(Object.keys(faultsOf(typed, []))).toEqual(['example'])
    expect(Object.keys(faultsOf({ ...typed, example: '', within: 'nowhere' }, []))).toEqual(['rule'])
  })
})

describe('a procedure made for another host', () => {
  it('takes the values that are right and leaves the others out', () => {
    const parameters = [
      parameter({}),
      parameter({ name: 'address', type: 'IPv4 address' }),
      parameter({ name: 'port', type: 'port' }),
    ]
    const typed = new Map([
      ['host', 'logger.example.org'],
      ['address', '192.0.2.256'],
    ])
    expect([...rightValues(parameters, typed)]).toEqual([['host', 'logger.example.org']])
  })
  it('has the values in its places and in the names of its files too, and names its machines when it leaves', () => {
    const id = 'step-1' as StepId
    const machine = { id: 'machine-1' as MachineId, name: 'rack-logger' } as Machine
    const place = { machine: machine.id, host: null, user: null, directory: '/srv/⁅service⁆' }
    const file = { ...unnamedFile, path: '/etc/⁅service⁆.conf', owner: '⁅service⁆' }
    const view = {
      procedures: new Map([['p', { id: 'p' as ProcedureId, place: null } as Procedure]]),
      steps: new Map([
        [id, { id, procedure: 'p', position: 'a', level: 'step', place, pointOfNoReturn: true } as Step],
      ]),
      parts: new Map([['f', { id: 'f', procedure: 'p', step: id, kind: 'file', file } as unknown as Part]]),
      texts: new Map([['f', '```\nname = ⁅service⁆\n```']]),
      links: new Map(),
    } as unknown as ProjectView
    const shown = toShownProcedure(view, 'p' as ProcedureId)!
    const filled = fillProcedure(shown, new Map([['service', 'logger']]))
    const [step] = filled.steps
    expect(step!.parts[0]!.part.file).toMatchObject({ path: '/etc/logger.conf', owner: 'logger' })
    const records = {
      links: { links: new Map(), states: new Map() },
      entries: new Map(),
      withdrawn: new Set<string>(),
      captures: new Map(),
      sources: new Map(),
    }
    const [out] = toExportInput(filled, records, [machine]).steps
    expect(out).toMatchObject({ place: 'on rack-logger, in /srv/logger', pointOfNoReturn: true })
    expect(JSON.stringify(out)).not.toContain('⁅')
    expect(shown.steps[0]!.parts[0]!.part.file!.path).toBe('/etc/⁅service⁆.conf')
  })
  it('gives the commands of what is to be done, without those that only show what should be seen', () => {
    const of = (kind: string, text: string) => ({ part: { kind } as Part, text })
    const parts = [
      of('do', '```sh\nping -c 3 192.0.2.7\nuptime\n```'),
      of('expect', '```sh\ncat /etc/hostname\n```'),
    ]
    expect(commandsToRun(parts)).toBe('ping -c 3 192.0.2.7\nuptime')
  })
})
