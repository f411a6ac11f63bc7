/** Where a step happens, shown where that changes, and the form that says it. */
import type { Place, Step } from '../../../shared/lab/model.ts'
import { placeInWords, type RowPlace } from '../../../shared/procedure/rows/places.ts'
import { sayOfStep } from '../../store/gestures.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { PlaceIcon } from '../../ui/icons.tsx'
import { PlaceForm } from '../journal/PlaceForm.tsx'
import { setPane, usePane } from './paneStore.ts'

interface RowPlaceLineProps {
  readonly step: Step
  readonly number: string
  readonly place: RowPlace
  readonly tabIndex: number
}

export function RowPlaceLine({ step, number, place: { place, isChanged }, tabIndex }: RowPlaceLineProps) {
  const workspace = useWorkspace()
  const isPlacing = usePane((state) => state.placing === step.id)
  const close = () => setPane({ placing: null, wanted: { kind: 'step', id: step.id } })
  if (isPlacing)
    return (
      <div className="st-row-above">
        <PlaceForm
          label="Where it happens"
          place={step.place ?? place}
          hint="From this step on, until a later one says another place. Empty: as before."
          onKeep={(next) => void sayOfStep(workspace, step, { place: next }).then(close)}
          onCancel={close}
        />
      </div>
    )
  if (!isChanged || place === null) return null
  return (
    <div className="st-row-above">
      <PlaceButton
        place={place}
        label={`Step ${number} happens`}
        tabIndex={tabIndex}
        onChange={() => setPane({ placing: step.id })}
      />
    </div>
  )
}

interface PlaceButtonProps {
  readonly place: Place
  /** What the place is of, for those who do not see where it stands. */
  readonly label: string
  readonly tabIndex: number
  readonly onChange: () => void
}

/** A place in words, with its sign. */
export function PlaceWords({ place, label }: Pick<PlaceButtonProps, 'place' | 'label'>) {
  const machines = useWorkspaceState((state) => state.machines)
  return (
    <>
      <PlaceIcon />
      <span className="st-unseen">{label} </span>
      <span className="st-place-words">{placeInWords(place, machines)}</span>
    </>
  )
}

/** A place in words; pressed, it is said anew. */
export function PlaceButton({ place, label, tabIndex, onChange }: PlaceButtonProps) {
  return (
    <button
      type="button"
      className="st-place-line"
      aria-keyshortcuts="Alt+P"
      tabIndex={tabIndex}
      onClick={onChange}
    >
      <PlaceWords place={place} label={label} />
    </button>
  )
}
