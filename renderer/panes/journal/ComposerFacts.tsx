/** What the entry that is being written will say of itself beside its words: where, when, and what it is added to. */
import { useState, type ReactNode } from 'react'
import { useStore } from 'zustand'
import { momentOf } from '../../../shared/journal/entry-facts.ts'
import { noFile } from '../../../shared/journal/files/typed.ts'
import { canAnswer } from '../../../shared/journal/problems.ts'
import { wordsOfPlace } from '../../../shared/journal/places.ts'
import type { EntryId } from '../../../shared/lab/ids.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, entryKindFaces } from '../../ui/index.ts'
import {
  AdditionIcon,
  CloseIcon,
  KindFileIcon,
  KindProblemIcon,
  PlaceIcon,
  TimeIcon,
} from '../../ui/icons.tsx'
import type { ComposerModel } from './composerModel.ts'
import { FileForm } from './files/FileForm.tsx'
import { HappenedForm } from './HappenedForm.tsx'
import { PlaceForm } from './PlaceForm.tsx'
import { dateOf, timeOf } from './rows.ts'

type Asking = 'nothing' | 'place' | 'time' | 'file'

export function ComposerFacts({ model }: { readonly model: ComposerModel }): ReactNode {
  const { facts, kind, answers: asked } = useStore(model.store)
  const answers = canAnswer({ kind }) ? asked : null
  const workspace = useWorkspace()
  const machines = useWorkspaceState((state) => state.machines)
  const [asking, setAsking] = useState<Asking>('nothing')
  const close = (): void => {
    setAsking('nothing')
    model.focus()
  }
  if (asking === 'place')
    return (
      <PlaceForm
        place={facts.place}
        hint="Kept for every entry from here on, until you change it."
        onCancel={close}
        onKeep={(place) => {
          model.say({ place })
          close()
        }}
      />
    )
  if (asking === 'file')
    return (
      <FileForm
        file={facts.file ?? noFile}
        onCancel={close}
        onKeep={(file) => {
          model.say({ file })
          close()
        }}
      />
    )
  if (asking === 'time')
    return (
      <HappenedForm
        happened={facts.happened}
        written={workspace.requireLab().surroundings.clock.now()}
        onCancel={close}
        onKeep={(happened) => {
          model.say({ happened })
          close()
        }}
      />
    )
  return (
    <div className="st-composer-facts" role="group" aria-label="Where and when">
      {answers === null ? null : <AnswersChip problem={answers} model={model} />}
      {facts.under === null ? null : <UnderChip under={facts.under} model={model} />}
      {kind === 'file' ? (
        <Button
          look="quiet"
          icon={KindFileIcon}
          className="st-entry-fact"
          label={facts.file ? `${facts.file.path}: which file` : 'Which file'}
          onClick={() => setAsking('file')}
        >
          {facts.file ? facts.file.path : 'Which file'}
        </Button>
      ) : null}
      <Button
        look="quiet"
        icon={PlaceIcon}
        className="st-entry-fact"
        label={facts.place ? `${wordsOfPlace(facts.place, machines)}: where it happens` : 'Set the place'}
        onClick={() => setAsking('place')}
      >
        {facts.place ? wordsOfPlace(facts.place, machines) : 'Set the place'}
      </Button>
      <Button
        look="quiet"
        icon={TimeIcon}
        className="st-entry-fact"
        label={facts.happened ? `${wordsOfMoment(facts.happened)}: when it happened` : 'Now: when it happens'}
        onClick={() => setAsking('time')}
      >
        {facts.happened ? wordsOfMoment(facts.happened) : 'Now'}
      </Button>
    </div>
  )
}

const wordsOfMoment = (moment: NonNullable<ReturnType<typeof momentOf>>): string =>
  `${dateOf(moment)} ${timeOf(moment)}`

/** The problem that the next entry answers, and the way out of that. */
function AnswersChip({ problem, model }: { readonly problem: EntryId; readonly model: ComposerModel }) {
  const entry = useWorkspaceState(({ view }) => view?.entries.get(problem))
  const words = useWorkspaceState(({ view }) => view?.texts.get(problem) ?? '')
  if (!entry) return null
  return (
    <span className="st-composer-under">
      <KindProblemIcon />
      <span className="st-composer-under-words">
        Answers the problem of {timeOf(momentOf(entry))}: {words.replace(/\s+/gu, ' ').slice(0, 60)}
      </span>
      <Button
        look="quiet"
        icon={CloseIcon}
        label="It answers no problem"
        onClick={() => model.answer(null)}
      />
    </span>
  )
}

/** What the next entry is added to, and the way out of that. */
function UnderChip({ under, model }: { readonly under: EntryId; readonly model: ComposerModel }) {
  const entry = useWorkspaceState(({ view }) => view?.entries.get(under))
  const words = useWorkspaceState(({ view }) => view?.texts.get(under) ?? '')
  if (!entry) return null
  const name = `${entryKindFaces[entry.kind].word.toLowerCase()} of ${timeOf(momentOf(entry))}`
  return (
    <span className="st-composer-under">
      <AdditionIcon />
      <span className="st-composer-under-words">
        Added to the {name}: {words.replace(/\s+/gu, ' ').slice(0, 60)}
      </span>
      <Button
        look="quiet"
        icon={CloseIcon}
        label="Write an entry of its own instead"
        onClick={() => {
          model.say({ under: null })
          model.focus()
        }}
      />
    </span>
  )
}
