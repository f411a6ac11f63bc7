/**
 * Measures ranking on the collection on which its constants may be chosen:
 *
 *     node --import tsx find-development.ts PACKAGES TRANSLATION VOCABULARY
 *
 * The first two are files of `apt-get -o Acquire::Languages=en update`, as they lie in Dir::State::Lists, read by apt's own
 * helper; the third is /usr/share/debtags/vocabulary of the package debtags. Prints the means, and how likely each is to
 * differ so much from what ships by chance.
 */
import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { averagePrecision, mean, precisionAt, reciprocalRank } from '../../support/retrieval/measures.ts'
import {
  summaries,
  titledByName,
  titledBySummary,
  toPackages,
  topicsOf,
} from '../../support/retrieval/packages.ts'
import { rankerOf, rankers, type RankerName } from '../../support/retrieval/results.ts'
import { pairedRandomisation } from './tags.ts'

const [packagesFile = '', translationFile = '', vocabularyFile = ''] = process.argv.slice(2)
const packages = toPackages(readByApt(packagesFile), readByApt(translationFile))
const vocabulary = readFileSync(vocabularyFile, 'utf8')
const [short, long] = [false, true].map((isLong) => topicsOf(vocabulary, packages, isLong))
console.log(`${packages.length} packages, ${short!.length} topics, ${summaries(packages).length} summaries`)

function readByApt(file: string): string {
  return execFileSync('/usr/lib/apt/apt-helper', ['cat-file', file], { encoding: 'utf8', maxBuffer: 1 << 28 })
}

type Values = Readonly<Record<'short MAP' | 'short P30' | 'long MAP' | 'long P30' | 'summary MRR', number[]>>

function valuesOf(name: RankerName): Values {
  const byWords = rankerOf(name, titledBySummary(packages))
  const byName = rankerOf(name, titledByName(packages))
  const [ofShort, ofLong] = [short!, long!].map((topics) => {
    const runs = topics.map(({ typed, relevant }) => ({ relevant, retrieved: byWords(typed) }))
    return {
      map: runs.map(({ retrieved, relevant }) => averagePrecision(retrieved, relevant)),
      p30: runs.map(({ retrieved, relevant }) => precisionAt(30, retrieved, relevant)),
    }
  })
  return {
    'short MAP': ofShort!.map,
    'short P30': ofShort!.p30,
    'long MAP': ofLong!.map,
    'long P30': ofLong!.p30,
    'summary MRR': summaries(packages).map(({ typed, wanted }) => reciprocalRank(byName(typed), wanted)),
  }
}

const ours = valuesOf('ours')
for (const name of rankers) {
  const values = name === 'ours' ? ours : valuesOf(name)
  const said = (Object.keys(values) as (keyof Values)[]).map((measure) => {
    const chance = pairedRandomisation(values[measure], ours[measure])
    return `${measure} ${mean(values[measure]).toFixed(4)}${name === 'ours' ? '' : ` (p ${chance.toFixed(4)})`}`
  })
  console.log(`${name}: ${said.join(', ')}`)
}
