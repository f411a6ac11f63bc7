/** Photos of one batch: when each was taken, how far the camera's clock was off, and what is to be seen. */
import { useMemo, type ReactNode } from 'react'
import { useStore } from 'zustand'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Panel } from '../../../trace/Panel.tsx'
import { Button, EmptyState } from '../../../ui/index.ts'
import { CloseIcon, SourcePictureIcon } from '../../../ui/icons.tsx'
import { CameraClock } from './CameraClock.tsx'
import { PhotoFiles } from './PhotoFiles.tsx'
import { photosOf, timeOf, type Photo, type Photos, type TimeFrom } from './photos.ts'
import './pictures.css'

export function PhotosPanel(): ReactNode {
  const workspace = useWorkspace()
  const photos = photosOf(workspace)
  const state = useStore(photos.store)
  const { reading, ahead, leavesOutPlace, isAdding, refusals } = state
  const inOrder = useMemo(
    () =>
      state.photos
        .map((photo) => ({ photo, ...timeOf(photo, ahead) }))
        .sort((one, other) => Date.parse(one.moment) - Date.parse(other.moment)),
    [state.photos, ahead],
  )
  const close = (): void => workspace.set({ panel: null })
  const add = async (): Promise<void> => {
    if (await photos.write()) close()
  }
  return (
    <Panel title="Photos" band="sources" className="st-photos" onClose={close}>
      <div className="st-panel-body st-scroll" tabIndex={0} role="group" aria-label="Photos to be placed">
        {inOrder.length + reading === 0 ? (
          <EmptyState
            icon={SourcePictureIcon}
            purpose="Photos of a phone or a camera, placed in the journal at the times at which they were taken."
          />
        ) : null}
        <PhotoFiles onFiles={(files) => void photos.add(files)} isFirst={inOrder.length === 0} />
        {reading === 0 ? null : <p role="status">Reading {reading} more …</p>}
        {refusals.map((sentence) => (
          <p key={sentence} className="st-photos-refusal" role="alert">
            {sentence}
          </p>
        ))}
        <Clocks photos={photos} shown={inOrder.map(({ photo }) => photo)} ahead={ahead} />
        <ol className="st-photo-list" aria-label="In the order in which they were taken">
          {inOrder.map(({ photo, moment, from }) => (
            <PhotoLine key={photo.id} photo={photo} moment={moment} from={from} photos={photos} />
          ))}
        </ol>
      </div>
      {inOrder.length === 0 ? null : (
        <footer className="st-photos-foot">
          <label className="st-photos-place">
            <input
              type="checkbox"
              checked={leavesOutPlace}
              onChange={(event) => photos.leaveOutPlace(event.target.checked)}
            />
            <span>
              Leave out the place where they were taken
              <span className="st-photos-hint">{hintOfPlaces(inOrder.map(({ photo }) => photo))}</span>
            </span>
          </label>
          <span className="st-button-row">
            <Button look="quiet" onClick={() => photos.clear()}>
              Clear the list
            </Button>
            <Button look="strong" disabled={isAdding || reading > 0} onClick={() => void add()}>
              {inOrder.length === 1 ? 'Add one entry' : `Add ${inOrder.length} entries`}
            </Button>
          </span>
        </footer>
      )}
    </Panel>
  )
}

function hintOfPlaces(photos: readonly Photo[]): string {
  const count = photos.filter(({ says }) => says.saysWhere).length
  const who =
    count === 0 ? 'None of them says where.' : count === 1 ? 'One says where.' : `${count} say where.`
  return `${who} All that the file says beside its pixels goes with it; the time stands in the entry.`
}

interface ClocksProps {
  readonly photos: Photos
  readonly shown: readonly Photo[]
  readonly ahead: ReadonlyMap<string, number>
}

/** One clock for each camera among the photos that say a time. */
function Clocks({ photos, shown, ahead }: ClocksProps): ReactNode {
  const cameras = [...new Set(shown.filter(({ says }) => says.taken).map(({ says }) => says.camera))].sort()
  return cameras.map((camera) => (
    <CameraClock
      key={camera}
      camera={camera}
      ahead={ahead.get(camera) ?? 0}
      own={shown.filter(({ says }) => says.taken && says.camera === camera)}
      onAhead={(seconds) => photos.setAhead(camera, seconds)}
    />
  ))
}

interface PhotoLineProps {
  readonly photo: Photo
  readonly moment: string
  readonly from: TimeFrom
  readonly photos: Photos
}

function PhotoLine({ photo, moment, from, photos }: PhotoLineProps) {
  const isToCome = Date.parse(moment) > Date.now()
  return (
    <li className="st-photo">
      <img className="st-photo-small" src={photo.url} alt="" loading="lazy" decoding="async" />
      <div className="st-photo-facts">
        <time dateTime={moment} className="st-photo-time">
          {moment.slice(0, 10)} {moment.slice(11, 19)} <span>UTC{moment.slice(23)}</span>
        </time>
        <span className="st-photo-from">
          {photo.file.name}, {wordsOfFrom[from]}
        </span>
        {isToCome ? (
          <span className="st-photo-from" role="note">
            That is still to come: say how far the camera’s clock was off.
          </span>
        ) : null}
      </div>
      <Button
        look="quiet"
        icon={CloseIcon}
        label={`Take ${photo.file.name} out of the list`}
        onClick={() => photos.drop(photo.id)}
      />
      <input
        type="text"
        className="st-input st-photo-words"
        aria-label={`What is to be seen on ${photo.file.name}`}
        placeholder="What is to be seen?"
        value={photo.description}
        onChange={(event) => photos.describe(photo.id, event.target.value)}
      />
    </li>
  )
}

const wordsOfFrom: Readonly<Record<TimeFrom, string>> = {
  camera: 'time by its camera',
  'camera without an offset': 'time by its camera, as the time here, since it names no offset',
  file: 'time by the file, since no camera says one',
}
