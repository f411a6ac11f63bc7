/** The composer at the foot of the journal: always there, whatever else goes on. */
import { useEffect, useRef, useState, type DragEvent } from 'react'
import { useStore } from 'zustand'
import { SketchMenu } from '../../sketch/index.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, SegmentedKinds, Tooltip } from '../../ui/index.ts'
import { CheckIcon, EnterIcon, OutlineIcon, SourcePictureIcon } from '../../ui/icons.tsx'
import { ComposerFacts } from './ComposerFacts.tsx'
import { bringsSomething, takeDrop } from './composerDrops.ts'
import type { ComposerModel } from './composerModel.ts'
import { TidyDraft } from './tidying/TidyDraft.tsx'
import { openPhotos } from './pictures/photos.ts'

export function Composer({ model }: { readonly model: ComposerModel }) {
  const { kind, refusal, done } = useStore(model.store)
  const [isTidying, setTidying] = useState(false)
  return (
    <div className="st-composer" role="group" aria-label="New entry" {...useDrops(model)}>
      <SegmentedKinds value={kind} onChange={(chosen) => model.choose(chosen)} />
      <ComposerText model={model} kind={kind} />
      {isTidying ? <TidyDraft model={model} onClose={() => setTidying(false)} /> : null}
      {refusal === null ? null : (
        <p className="st-composer-refusal" role="alert">
          {refusal}
        </p>
      )}
      <ComposerFoot model={model} onTidy={kind === 'file' ? null : () => setTidying(true)} />
      <p className="st-unseen" role="status">
        {done}
      </p>
    </div>
  )
}

function ComposerText({ model, kind }: { readonly model: ComposerModel; readonly kind: string }) {
  const parent = useRef<HTMLDivElement>(null)
  useEffect(() => model.attach(parent.current!), [model])
  return <div ref={parent} className={`st-composer-text st-kind--${kind}`} />
}

interface FootProps {
  readonly model: ComposerModel
  /** Null where the text must stay as it is. */
  readonly onTidy: (() => void) | null
}

/** One line, as long as there is room for it: where and when, what can be put in, and the way out. */
function ComposerFoot({ model, onTidy }: FootProps) {
  const workspace = useWorkspace()
  const enterWrites = useStore(model.store, (state) => state.enterWrites)
  return (
    <div className="st-composer-foot">
      <ComposerFacts model={model} />
      <span className="st-composer-acts">
        <Tooltip words="Add photos…" side="above">
          <Button look="quiet" icon={SourcePictureIcon} onClick={() => openPhotos(workspace, [])}>
            Add photos…
          </Button>
        </Tooltip>
        <Tooltip words="Sketch…" side="above">
          <SketchMenu onInsert={(block) => model.insert(block, true)} />
        </Tooltip>
        {onTidy ? (
          <Tooltip words="Tidy" side="above">
            <Button look="quiet" icon={OutlineIcon} onClick={onTidy}>
              Tidy
            </Button>
          </Tooltip>
        ) : null}
        <Tooltip words={`Enter writes: ${enterWrites ? 'on' : 'off'}`} side="above">
          <Button
            look="quiet"
            icon={enterWrites ? CheckIcon : EnterIcon}
            pressed={enterWrites}
            onClick={() => model.setEnterWrites(!enterWrites)}
          >
            Enter writes
          </Button>
        </Tooltip>
      </span>
      <Button look="strong" keys={enterWrites ? 'Enter' : 'Ctrl+Enter'} onClick={() => void model.write()}>
        Write entry
      </Button>
    </div>
  )
}

/** Drops beside the text, on the composer's other parts, go to where the cursor is. */
function useDrops(model: ComposerModel) {
  const workspace = useWorkspace()
  return {
    onDragOver: (event: DragEvent): void => {
      if (event.defaultPrevented || !bringsSomething(event.dataTransfer)) return
      event.preventDefault()
      event.dataTransfer.dropEffect = 'copy'
    },
    onDrop: (event: DragEvent): void => {
      if (event.defaultPrevented || !takeDrop(workspace, model, event.dataTransfer)) return
      event.preventDefault()
      event.stopPropagation()
    },
  }
}
