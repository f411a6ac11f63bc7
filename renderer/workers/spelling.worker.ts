/** Holds the dictionaries. Opens the lab's database to read its words, never to write. */
import type { LabId } from '../../shared/lab/ids.ts'
import type { Speller } from 'nspell'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import { labWordsOf, makeSpellers, misspeltAmong } from './speller.ts'
import { LAB_WORDS, type SpellingAnswer, type SpellingRequest } from './spelling.ts'

const files = import.meta.glob<string>(
  ['../../node_modules/dictionary-en/index.{aff,dic}', '../../node_modules/dictionary-en-gb/index.dic'],
  { query: '?url', import: 'default', eager: true },
)

const say = (answer: SpellingAnswer): void => postMessage(answer)

/** Only what opening asks for: nothing is ever made here. */
const around = systemSurroundings()

let spellers: Promise<readonly Speller[]> | null = null
const labs = new Map<LabId, Promise<OpenLab>>()

async function read(file: string): Promise<string> {
  const address = files[`../../node_modules/${file}`]
  if (address === undefined) throw new Error(`no dictionary ${file}`)
  const answer = await fetch(address)
  if (!answer.ok) throw new Error(`dictionary ${file}: ${answer.status}`)
  return answer.text()
}

async function readSpellers(): Promise<readonly Speller[]> {
  const [rules, american, british] = await Promise.all([
    read('dictionary-en/index.aff'),
    read('dictionary-en/index.dic'),
    read('dictionary-en-gb/index.dic'),
  ])
  return makeSpellers(rules, [american, british])
}

function openLab(id: LabId): Promise<OpenLab> {
  const opened = labs.get(id) ?? OpenLab.open(id, { indexedDB, IDBKeyRange }, around)
  labs.set(id, opened)
  return opened
}

async function answer({ lab, words, number }: SpellingRequest): Promise<SpellingAnswer> {
  const opened = await openLab(lab)
  const own = await labWordsOf(opened.queries, await opened.findSetting(LAB_WORDS))
  return { kind: 'answer', number, misspelt: misspeltAmong(await (spellers ??= readSpellers()), own, words) }
}

addEventListener('message', ({ data }: MessageEvent<SpellingRequest>) => {
  void answer(data).then(say, (error: unknown) => {
    spellers = null
    say({ kind: 'broken', number: data.number, reason: String(error) })
  })
})
