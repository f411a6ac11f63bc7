/** The seal of the open project's journal: checking it, noting its head, taking the sealed journal out. */
import { useState, type FormEvent, type ReactNode } from 'react'
import { headText, maybeHead } from '../../shared/journal/seal/heads.ts'
import type { SealHead } from '../../shared/journal/seal/model.ts'
import type { SecretFound } from '../../shared/safety/secrets/scan.ts'
import { letFileOut } from '../leaving/index.ts'
import { RewriteStore } from '../rewriting/index.ts'
import { goToEntry } from '../store/goToEntry.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, ProgressLine, TextInput } from '../ui/index.ts'
import { CopyIcon, ExportIcon, SealIcon } from '../ui/icons.tsx'
import { askSealWorker, type SealAnswer, type SealTask } from '../workers/seal.ts'
import './seal.css'

export function SealPanel(): ReactNode {
  const workspace = useWorkspace()
  const [isBusy, setBusy] = useState(false)
  const [answer, setAnswer] = useState<SealAnswer | null>(null)
  const run = (kind: SealTask['kind']) => async (): Promise<void> => {
    // A disabled button would lose the keyboard's place.
    if (isBusy) return
    setBusy(true)
    const found = await ask(workspace, kind)
    setAnswer(found)
    setBusy(false)
    if (kind === 'take out' && found.kind === 'held' && found.bytes)
      await save(workspace, found.bytes, found.head, found.found)
  }
  return (
    <Panel
      title="The seal"
      band="sources"
      className="st-seal-panel"
      onClose={() => workspace.set({ panel: null })}
    >
      <div className="st-panel-body st-scroll st-seal" tabIndex={0} role="group" aria-label="The seal">
        <p>
          Everything in this journal is sealed when it is written: entries, amendments, withdrawals, ticks and
          outcomes. Each seal holds the one before it, so a later change can be seen.
        </p>
        <span className="st-button-row st-logs-ways">
          <Button icon={SealIcon} aria-disabled={isBusy} onClick={() => void run('check')()} data-first>
            Check the seal
          </Button>
          <Button icon={ExportIcon} aria-disabled={isBusy} onClick={() => void run('take out')()}>
            Take out the sealed journal…
          </Button>
        </span>
        {isBusy ? <ProgressLine words="Checking the journal" share={null} /> : null}
        {answer && !isBusy ? <Answer answer={answer} /> : null}
        <NotedHead />
        <h3>What it proves, and what it does not</h3>
        <p>
          It proves that nothing that was sealed was changed, removed, moved or put between, up to a head that
          was noted or exported earlier.
        </p>
        <p>
          It does not prove who wrote it, nor that the clock was right, nor that nothing was left out before.
          Whoever has the lab can make the whole chain anew or cut off its end; only a head that you noted
          elsewhere shows that.
        </p>
        <p>
          What was written before this lab had seals was sealed all at once when they came: for that, the seal
          vouches from then on, not for the time before. The check says how many such seals there are.
        </p>
        <RewriteStore />
      </div>
    </Panel>
  )
}

function Answer({ answer }: { readonly answer: SealAnswer }) {
  const workspace = useWorkspace()
  const projectOf = (entry: string) => workspace.state.view?.entries.get(entry)
  const go = (entry: string) => {
    const found = projectOf(entry)
    if (found) void goToEntry(workspace, found)
  }
  if (answer.kind === 'failed')
    return (
      <p className="st-seal-broken" role="alert">
        The journal could not be checked. Nothing was changed; try again.
      </p>
    )
  if (answer.kind === 'broken') {
    const { entry } = answer
    return (
      <div className="st-seal-broken" role="alert">
        <p>{answer.sentence}</p>
        {entry ? <Button onClick={() => go(entry)}>Go to that entry</Button> : null}
      </div>
    )
  }
  const { head, struck, sentence } = answer
  return (
    <div className="st-seal-held" role="status">
      <p>{sentence}</p>
      {struck.map(({ words, entry }, i) => (
        <p key={i} className="st-seal-struck">
          {`Something was struck out of ${words}.`}
          {entry ? (
            <Button look="quiet" onClick={() => go(entry)}>
              Show the entry
            </Button>
          ) : null}
        </p>
      ))}
      {head ? <Head head={head} /> : null}
    </div>
  )
}

/** The head, to be written down elsewhere. */
function Head({ head }: { readonly head: SealHead }) {
  const workspace = useWorkspace()
  const copy = async (): Promise<void> => {
    const copied = await workspace.host.copyText({ text: headText(head) })
    if (copied.ok) await keepHead(workspace, head)
    workspace.say(
      copied.ok ? 'done' : 'problem',
      copied.ok
        ? 'Copied the head. Keep it outside this machine; later checks compare with it.'
        : copied.sentence,
    )
  }
  return (
    <div className="st-seal-head">
      <code>{headText(head)}</code>
      <Button icon={CopyIcon} onClick={() => void copy()}>
        Note the head
      </Button>
    </div>
  )
}

/** A head that was noted on paper or elsewhere. */
function NotedHead() {
  const workspace = useWorkspace()
  const [text, setText] = useState('')
  const head = maybeHead(text)
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault()
    if (!head) return
    await keepHead(workspace, head)
    setText('')
    workspace.say('done', 'Kept. The next check compares with it.')
  }
  return (
    <form className="st-seal-noted" onSubmit={(event) => void keep(event)}>
      <TextInput
        label="A head that was noted earlier"
        isMono
        hint="Its number and its 64 signs."
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      <Button type="submit" disabled={!head}>
        Compare with it from now on
      </Button>
    </form>
  )
}

const keyOf = (workspace: Workspace): string => `noted heads ${workspace.requireView().project}`

async function notedHeads(workspace: Workspace): Promise<SealHead[]> {
  const kept = await workspace.requireLab().findSetting(keyOf(workspace))
  return Array.isArray(kept)
    ? kept.flatMap((text) => (typeof text === 'string' ? (maybeHead(text) ?? []) : []))
    : []
}

async function keepHead(workspace: Workspace, head: SealHead): Promise<void> {
  const texts = new Set([...(await notedHeads(workspace)), head].map(headText))
  await workspace.requireLab().keepSetting(keyOf(workspace), [...texts])
}

async function ask(workspace: Workspace, kind: SealTask['kind']): Promise<SealAnswer> {
  await workspace.flushTexts()
  const { project } = workspace.requireView()
  const title = workspace.state.projects.find(({ id }) => id === project)?.title ?? ''
  const noted = await notedHeads(workspace)
  return askSealWorker({ kind, lab: workspace.requireLab().id, project, title, noted })
}

async function save(
  workspace: Workspace,
  bytes: Uint8Array<ArrayBuffer>,
  head: SealHead | null,
  secrets: readonly SecretFound[],
): Promise<void> {
  const day = new Date().toISOString().slice(0, 10)
  const saved = await letFileOut(
    workspace,
    { found: secrets, what: 'The sealed journal' },
    {
      suggestedName: `sealed-journal ${day}.zip`,
      mediaType: 'application/zip',
      bytes,
    },
  )
  if (!saved.ok) return workspace.say('problem', saved.sentence)
  if (saved.value.kind === 'cancelled') return
  if (head) await keepHead(workspace, head)
  workspace.say(
    'done',
    `The sealed journal was saved as “${saved.value.name}”. Its README says how to check it.`,
  )
}
