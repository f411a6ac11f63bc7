import { describe, expect, test } from 'vitest'
import { isFace } from '../../../../renderer/ui/theme.ts'
import { colourOf, contrastRatio, over, type Colour } from './contrast.ts'
import { rulesOf, styleSheets, tokensOf, type Rule, type Tokens } from './styles.ts'

const themes = { light: tokensOf(':root'), dark: tokensOf(":root[data-theme='dark']") }
const papers = ['--paper-sources', '--paper-journal', '--paper-procedure', '--paper-bar', '--paper-raised']
const bands = ['--accent-sources', '--accent-journal', '--accent-procedure']
/** What stands for one of several tokens, by the class that sets it. */
const standIns: Readonly<Record<string, readonly string[]>> = {
  '--kind': ['action', 'output', 'observation', 'problem', 'fix', 'decision'].map((kind) => `--kind-${kind}`),
  '--band': bands,
  '--paper': papers,
  '--signal': ['--danger', '--warning', '--caution', '--notice'],
}
/** Rules between things that are told apart without them; WCAG 2.2, 1.4.11 asks nothing of these. */
const decorative = new Set(['--rule'])
const shallow = [[], ['--wash'], ['--wash-strong']]
/** A block of machine text in a chosen entry, a pressed button in it. On the bar nothing lies two deep. */
const deep = [...shallow, ['--wash', '--wash'], ['--wash', '--wash-strong']]
const washesOn = (base: string) => (!papers.includes(base) ? [[]] : base === '--paper-bar' ? shallow : deep)

const rules = styleSheets()
  .filter((file) => file !== 'ui/theme.css' && file !== 'ui/fonts.css')
  .flatMap(rulesOf)

function namedIn(value: string | undefined): string[] {
  const names = [...(value ?? '').matchAll(/var\((--[a-z-]+)/g)].map((match) => match[1]!)
  return names.flatMap((name) => standIns[name] ?? [name])
}

function backgroundOf(rule: Rule): string[] {
  return namedIn(rule.declarations.get('background') ?? rule.declarations.get('background-color'))
}

function colourNamed(tokens: Tokens, name: string): Colour {
  const value = tokens.get(name)
  if (value === undefined) throw new Error(`no token ${name}`)
  return colourOf(value)
}

/** A ground by its name: a paper or a fill, with washes on it. */
function groundsFor(tokens: Tokens, rule: Rule): { name: string; colour: Colour }[] {
  const own = backgroundOf(rule)
  const solid = own.filter((name) => colourNamed(tokens, name).alpha === 1)
  const bases = solid.length > 0 ? solid : papers
  return bases.flatMap((base) =>
    washesOn(base).map((layers) => ({
      name: [base, ...layers].join(' + '),
      colour: layers.reduce(
        (below, layer) => over(colourNamed(tokens, layer), below),
        colourNamed(tokens, base),
      ),
    })),
  )
}

function tooFaint(
  tokens: Tokens,
  wanted: number,
  inks: (rule: Rule) => readonly string[],
): { checked: number; faint: string[] } {
  let checked = 0
  const faint = new Set<string>()
  for (const rule of rules) {
    for (const ink of inks(rule)) {
      for (const ground of groundsFor(tokens, rule)) {
        checked += 1
        const ratio = contrastRatio(colourNamed(tokens, ink), ground.colour)
        if (ratio < wanted) faint.add(`${ink} on ${ground.name} (${rule.selector}): ${ratio.toFixed(2)}`)
      }
    }
  }
  return { checked, faint: [...faint] }
}

const fills = new Set(['--ink', '--ink-soft', '--rule-strong', '--danger', ...bands])

/** The text colours of a rule: its own, or the two inherited ones where it only lays a ground for text. */
function textInks(rule: Rule): string[] {
  const own = namedIn(rule.declarations.get('color'))
  if (own.length > 0) return own
  const isGroundForText = backgroundOf(rule).some((name) => !fills.has(name))
  return isGroundForText ? ['--ink', '--ink-soft'] : []
}

/** What a rule draws with lines, without those that are there for order only. */
function lineInks(rule: Rule): string[] {
  const lines = [...rule.declarations].filter(([name]) =>
    /^(border|outline|stroke|fill|box-shadow)/.test(name),
  )
  return lines
    .flatMap(([, value]) => namedIn(value))
    .filter(
      (name) =>
        name !== '--shadow' &&
        name !== '--round' &&
        !decorative.has(name) &&
        !backgroundOf(rule).includes(name),
    )
}

describe.each(Object.entries(themes))('the %s theme (WCAG 2.2)', (_, tokens) => {
  test('every text has a contrast of at least 4.5 to every ground it can stand on (1.4.3)', () => {
    const { checked, faint } = tooFaint(tokens, 4.5, textInks)
    expect(faint).toEqual([])
    expect(checked).toBeGreaterThan(500)
  })

  test('every line that a control or a drawing is known by has a contrast of at least 3 (1.4.11)', () => {
    const { checked, faint } = tooFaint(tokens, 3, lineInks)
    expect(faint).toEqual([])
    expect(checked).toBeGreaterThan(500)
  })

  test('fills without words are seen on every paper (1.4.11)', () => {
    for (const fill of fills) {
      for (const paper of papers) {
        expect(
          contrastRatio(colourNamed(tokens, fill), colourNamed(tokens, paper)),
          `${fill} on ${paper}`,
        ).toBeGreaterThanOrEqual(3)
      }
    }
  })

  test('the papers clear from left to right: text stands out more on each than on the one before', () => {
    const ratios = papers
      .slice(0, 3)
      .map((paper) => contrastRatio(colourNamed(tokens, '--ink'), colourNamed(tokens, paper)))
    expect(ratios[1]! / ratios[0]!).toBeGreaterThan(1.1)
    expect(ratios[2]! / ratios[1]!).toBeGreaterThan(1.1)
  })
})

test('the published pairs have their published ratios: black on white 21, #777777 on white 4.48 (WebAIM, WCAG techniques)', () => {
  expect(contrastRatio(colourOf('#000000'), colourOf('#ffffff'))).toBeCloseTo(21, 10)
  expect(contrastRatio(colourOf('#777777'), colourOf('#ffffff'))).toBeCloseTo(4.48, 2)
})

test('the dark theme is the same by choice and by system', () => {
  const bySystem = tokensOf(":root[data-theme='system']", ['@media (prefers-color-scheme: dark)'])
  expect([...bySystem]).toEqual([...themes.dark])
  expect(themes.dark.get('--ink')).not.toBe(themes.light.get('--ink'))
})

test('the dark theme changes every colour that the light one has', () => {
  const colours = [...themes.light].filter(([, value]) => /^#|^rgb\(/.test(value)).map(([name]) => name)
  const same = colours.filter((name) => themes.dark.get(name) === themes.light.get(name))
  expect(same).toEqual([])
})

test('every token that a style sheet reads is set in theme.css or by a class', () => {
  const set = new Set([...themes.light.keys(), ...rules.flatMap((rule) => [...rule.declarations.keys()])])
  const read = rules.flatMap((rule) =>
    [...rule.declarations.values()].flatMap((value) => [...value.matchAll(/var\((--[\w-]+)/g)]),
  )
  expect(read.map((match) => match[1]!).filter((name) => !set.has(name))).toEqual([])
})

test('no style sheet but theme.css holds a colour of its own', () => {
  const own = rules.flatMap((rule) =>
    [...rule.declarations]
      .filter(([, value]) => /#[0-9a-f]{3,8}\b|\brgb|\bhsl/i.test(value))
      .map(([name]) => `${rule.selector} ${name}`),
  )
  expect(own).toEqual([])
})

test('a target is at least 28 px in both text sizes', () => {
  const rem = Number.parseFloat(themes.light.get('--target')!)
  const percent = [
    themes.light.get('font-size')!,
    tokensOf(":root[data-size='bench']").get('font-size')!,
  ].map(Number.parseFloat)
  expect(percent.map((share) => (16 * share) / 100)).toEqual([15, 20])
  for (const share of percent) expect((rem * 16 * share) / 100).toBeGreaterThanOrEqual(28)
})

test('only a known theme with a known size is a face', () => {
  expect(isFace({ theme: 'dark', size: 'bench' })).toBe(true)
  for (const value of [
    null,
    'dark',
    {},
    { theme: 'dark' },
    { theme: 'sepia', size: 'normal' },
    { theme: 'dark', size: 3 },
  ]) {
    expect(isFace(value)).toBe(false)
  }
})
