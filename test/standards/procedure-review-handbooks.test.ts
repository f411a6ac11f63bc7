/**
 * What public handbooks ask of procedures, and which rule of the review answers for it. Each folder of fixtures and each page
 * has one row: a rule, or why it is out of scope. Where a fixture holds faults that can stand in a step, they are planted.
 * Sources: plainlanguage.gov (public domain), the style rules with fixtures of Red Hat and Google (MIT), Red Hat's modular
 * documentation (CC BY-SA 4.0).
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { longSentences } from '../../shared/procedure/ease/sentences.ts'
import { plainerVerbs } from '../../shared/procedure/review/english.ts'
import { getRule, reviewProcedure } from '../../shared/procedure/review/review.ts'
import { ruleIds, type RuleId } from '../../shared/procedure/review/rule.ts'
import { singleStep } from '../support/reviewed.ts'

const standards = process.env.STANDARDS_DIR ?? join(import.meta.dirname, '../../../shared/standards')
const folder = join(standards, 'procedure-writing')

const layout = 'it is about punctuation, capitals or layout, not about whether a step can be followed'
const spelling = 'it is about spelling and house terms, not about whether a step can be followed'
const markup = 'it is about the markup of another format'
const publishing = 'it is about books, product pages or release notes, not about procedures'
const tone = 'it is about tone; a step that is clear may have any'
const outOf = (why: string) => ({ outOfScope: why })

type Row = readonly RuleId[] | { readonly outOfScope: string }

/** By folder of fixtures or by page. */
const table: Readonly<Record<string, Row>> = {
  'vale-redhat-fixtures/RedHat/Abbreviations': outOf(layout),
  'vale-redhat-fixtures/RedHat/CaseSensitiveTerms': outOf(spelling),
  'vale-redhat-fixtures/RedHat/Conjunctions': outOf(tone),
  'vale-redhat-fixtures/RedHat/ConsciousLanguage': outOf(tone),
  'vale-redhat-fixtures/RedHat/Contractions': outOf(tone),
  'vale-redhat-fixtures/RedHat/Definitions': ['undefined abbreviation'],
  'vale-redhat-fixtures/RedHat/DoNotUseTerms': outOf(spelling),
  'vale-redhat-fixtures/RedHat/Ellipses': outOf(layout),
  'vale-redhat-fixtures/RedHat/EmDash': outOf(layout),
  'vale-redhat-fixtures/RedHat/GitLinks': outOf(publishing),
  'vale-redhat-fixtures/RedHat/HeadingPunctuation': outOf(layout),
  'vale-redhat-fixtures/RedHat/Headings': outOf(layout),
  'vale-redhat-fixtures/RedHat/Hyphens': outOf(spelling),
  'vale-redhat-fixtures/RedHat/MergeConflictMarkers': outOf(markup),
  'vale-redhat-fixtures/RedHat/NoGerundsInTitles': outOf(
    'titles of procedures may be gerunds or not: the two handbooks disagree',
  ),
  'vale-redhat-fixtures/RedHat/ObviousTerms': outOf('it is about forms on a screen'),
  'vale-redhat-fixtures/RedHat/OxfordComma': outOf(layout),
  'vale-redhat-fixtures/RedHat/PascalCamelCase': outOf(markup),
  'vale-redhat-fixtures/RedHat/PassiveVoice': ['plain verb'],
  'vale-redhat-fixtures/RedHat/ProductCentricWriting': outOf(publishing),
  'vale-redhat-fixtures/RedHat/ReadabilityGrade': ['hard to read'],
  'vale-redhat-fixtures/RedHat/ReleaseNotes': outOf(publishing),
  'vale-redhat-fixtures/RedHat/RepeatedWords': outOf(spelling),
  'vale-redhat-fixtures/RedHat/SelfReferentialText': ['plain verb'],
  'vale-redhat-fixtures/RedHat/SentenceLength': ['long sentence'],
  'vale-redhat-fixtures/RedHat/SessionId': outOf(publishing),
  'vale-redhat-fixtures/RedHat/SimpleWords': ['plain verb'],
  'vale-redhat-fixtures/RedHat/Slash': outOf('of words with a slash, only “and/or” leaves a step open'),
  'vale-redhat-fixtures/RedHat/SmartQuotes': outOf(layout),
  'vale-redhat-fixtures/RedHat/Spacing': outOf(layout),
  'vale-redhat-fixtures/RedHat/Spelling': outOf(spelling),
  'vale-redhat-fixtures/RedHat/Symbols': outOf(layout),
  'vale-redhat-fixtures/RedHat/TermsErrors': outOf(spelling),
  'vale-redhat-fixtures/RedHat/TermsSuggestions': outOf(spelling),
  'vale-redhat-fixtures/RedHat/TermsWarnings': outOf(spelling),
  'vale-redhat-fixtures/RedHat/UserReplacedValues': outOf(markup),
  'vale-redhat-fixtures/RedHat/Using': outOf(
    'it is about what a clause hangs on, which takes a full parse of the sentence',
  ),
  'vale-google-fixtures/AMPM': outOf(layout),
  'vale-google-fixtures/Contractions': outOf(tone),
  'vale-google-fixtures/Dashes': outOf(layout),
  'vale-google-fixtures/DateFormat': outOf(layout),
  'vale-google-fixtures/Foreign': outOf(spelling),
  'vale-google-fixtures/Gender': outOf(tone),
  'vale-google-fixtures/Headings': outOf(layout),
  'vale-google-fixtures/Numbers': outOf(layout),
  'vale-google-fixtures/Passive': ['plain verb'],
  'vale-google-fixtures/Punctuation': outOf(layout),
  'vale-google-fixtures/Terms': ['vague words'],
  'vale-google-fixtures/Units': outOf(layout),
  'redhat-modular-docs/creating_procedure_modules.adoc': ['one action', 'plain verb', 'no expect'],
  'redhat-modular-docs/module_mod-docs-procedure-examples.adoc': outOf('it is a list of links'),
  'plainlanguage.gov/guidelines/concise/write-short-sentences.md': ['long sentence', 'hard to read'],
  'plainlanguage.gov/guidelines/conversational/use-active-voice.md': ['plain verb'],
  'plainlanguage.gov/guidelines/conversational/use-must-to-indicate-requirements.md': ['plain verb'],
  'plainlanguage.gov/guidelines/organize/place-the-main-idea-before-exceptions-and-conditions.md': [
    'condition first',
  ],
  'plainlanguage.gov/guidelines/organize/use-lists.md': ['one action'],
  'plainlanguage.gov/examples/before-and-after': ['long sentence'],
}

const entriesOf = (path: string, isFolder: boolean): string[] =>
  readdirSync(join(folder, path), { withFileTypes: true })
    .filter((one) => one.isDirectory() === isFolder && !one.name.startsWith('LICENSE'))
    .map(({ name }) => `${path}/${name}`)

const fixture = (path: string): string => readFileSync(join(folder, path), 'utf8')
const linesOf = (path: string): string[] =>
  fixture(path)
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean)
const findsIn = (text: string, rule: RuleId): boolean =>
  reviewProcedure(singleStep('do', text)).some((finding) => finding.rule === rule)
const share = (texts: readonly string[], rule: RuleId): number =>
  texts.filter((text) => findsIn(text, rule)).length / texts.length

/** The two columns of a page's tables of what not to say and what to say. */
function pairsIn(page: string): [before: string, after: string][] {
  return fixture(page)
    .split('\n')
    .map((line) =>
      line
        .replace(/^\||\|$/gu, '')
        .split('|')
        .map((one) => one.trim()),
    )
    .filter((columns) => columns.length === 2 && !/^[-: ]*$/u.test(columns[0]!))
    .map(([before, after]) => [before!, after!])
}

describe.skipIf(!existsSync(folder))('what the handbooks ask for', () => {
  it('has one row for each folder of fixtures and each page, and no row beside', () => {
    const all = [
      ...entriesOf('vale-redhat-fixtures/RedHat', true),
      ...entriesOf('vale-google-fixtures', true),
      ...entriesOf('redhat-modular-docs', false),
      ...entriesOf('plainlanguage.gov/guidelines', true).flatMap((path) => entriesOf(path, false)),
      ...entriesOf('plainlanguage.gov/examples', true),
    ]
    expect(Object.keys(table).sort()).toEqual(all.sort())
    for (const row of Object.values(table))
      if ('outOfScope' in row) expect(row.outOfScope).toMatch(/\w/u)
      else for (const id of row) expect(getRule(id).id).toBe(id)
  })

  it('is answered by rules that each have a source', () => {
    for (const id of ruleIds) expect(getRule(id).source.says, id).toMatch(/\w{3}/u)
  })

  it('finds each passive sentence that stands for an instruction', () => {
    expect(share(linesOf('vale-redhat-fixtures/RedHat/PassiveVoice/testinvalid.adoc'), 'plain verb')).toBe(1)
    expect(findsIn(linesOf('vale-google-fixtures/Passive/test.md').at(-1)!, 'plain verb')).toBe(true)
    const pairs = pairsIn('plainlanguage.gov/guidelines/conversational/use-active-voice.md').slice(1)
    expect(pairs.length).toBeGreaterThan(3)
    expect(
      share(
        pairs.map(([before]) => before),
        'plain verb',
      ),
    ).toBe(1)
  })

  it('finds each verb of the lists of words for which there is a plainer one, as far as it knows it', () => {
    const words = linesOf('vale-redhat-fixtures/RedHat/SimpleWords/testinvalid.adoc')
    const known = words.filter((word) => Object.hasOwn(plainerVerbs, word))
    if (process.env.SHOW_FIGURES) console.log(known.length, words.length, known.join())
    expect(known.length).toBeGreaterThanOrEqual(10)
    const steps = known.map((word) => `${word[0]!.toUpperCase()}${word.slice(1)} the lamp.`)
    expect(share(steps, 'plain verb')).toBe(1)
  })

  it('finds “and/or” among the terms that leave a step open', () => {
    const line = linesOf('vale-google-fixtures/Terms/test.md').find((one) => one.includes('and/or'))
    expect(findsIn(line!, 'vague words')).toBe(true)
  })

  it('finds each abbreviation of the fixture that nothing explains', () => {
    const lines = linesOf('vale-redhat-fixtures/RedHat/Definitions/testinvalid.adoc')
    expect(
      share(
        lines.map((line) => `Open the ${line} page.`),
        'undefined abbreviation',
      ),
    ).toBe(1)
  })

  it('finds sentences about the text itself where a step should be', () => {
    const lines = linesOf('vale-redhat-fixtures/RedHat/SelfReferentialText/testinvalid.adoc')
    const about = lines.filter((line) => line.startsWith('This'))
    expect(share(about, 'plain verb')).toBe(1)
  })

  it('finds more long sentences in what the pages of pairs say before than after', () => {
    const pages = entriesOf('plainlanguage.gov/examples/before-and-after', false)
    const pairs = pages.flatMap(pairsIn)
    const count = (side: 0 | 1): number =>
      pairs.reduce((sum, pair) => sum + longSentences(pair[side]).length, 0)
    if (process.env.SHOW_FIGURES) console.log(pairs.length, count(0), count(1))
    expect(pairs.length).toBeGreaterThan(10)
    expect(count(0)).toBeGreaterThan(count(1))
  })
})
