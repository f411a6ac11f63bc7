/** Every place of a value in the procedure, to be ticked. */
import { useId } from 'react'
import type { FoundPlace } from './places.ts'

interface PlacesProps {
  readonly places: readonly FoundPlace[]
  readonly isTicked: (place: FoundPlace) => boolean
  readonly onTick: (key: string, isOn: boolean) => void
}

export function PlacesOfValue({ places, isTicked, onTick }: PlacesProps) {
  const id = useId()
  const count = places.filter(isTicked).length
  return (
    <fieldset className="st-parameter-places">
      <legend>
        Where it becomes the placeholder:{' '}
        <span role="status">
          {count} of {places.length}
        </span>
      </legend>
      <ul>
        {places.map((place, i) => (
          <li key={place.key}>
            <label className="st-parameter-place">
              <input
                type="checkbox"
                checked={isTicked(place)}
                aria-describedby={place.reason === null ? undefined : `${id}-${i}`}
                onChange={(event) => onTick(place.key, event.target.checked)}
              />
              <span className="st-parameter-place-words">
                <span className="st-parameter-place-name">{place.name}</span>
                <code className="st-mono">
                  {place.before}
                  <mark className="st-mark">{place.value}</mark>
                  {place.after}
                </code>
              </span>
            </label>
            {place.reason === null ? null : (
              <p id={`${id}-${i}`} className="st-parameter-place-reason">
                {place.reason}
              </p>
            )}
          </li>
        ))}
      </ul>
    </fieldset>
  )
}
