/** What of the project the map shows. */
import { noFilter, type MapFilter } from '../../shared/map/model.ts'
import type { ShownMap } from '../../shared/map/map.ts'
import { Button, Field, TextInput } from '../ui/index.ts'

export interface MapFiltersProps {
  readonly filter: MapFilter
  readonly shown: ShownMap
  readonly onFilter: (filter: MapFilter) => void
}

export function MapFilters({ filter, shown, onFilter }: MapFiltersProps) {
  const { days, tags, procedures } = shown
  const limits = { min: days?.first, max: days?.last }
  const isFiltered = Object.values(filter).some((asked) => asked !== null)
  const set = (part: Partial<MapFilter>): void => onFilter({ ...filter, ...part })
  return (
    <div className="st-map-filters" role="group" aria-label="What the map shows">
      <TextInput
        type="date"
        label="From"
        {...limits}
        value={filter.from ?? ''}
        onChange={(event) => set({ from: event.target.value || null })}
      />
      <TextInput
        type="date"
        label="To"
        {...limits}
        value={filter.to ?? ''}
        onChange={(event) => set({ to: event.target.value || null })}
      />
      <Choice
        label="Tag"
        all="Any or none"
        options={tags.map((tag) => ({ key: tag, name: tag }))}
        value={filter.tag}
        onChoose={(tag) => set({ tag })}
      />
      <Choice
        label="Procedure"
        all="All"
        options={procedures}
        value={filter.procedure}
        onChoose={(procedure) => set({ procedure })}
      />
      {isFiltered ? <Button onClick={() => onFilter(noFilter)}>Show all</Button> : null}
    </div>
  )
}

interface ChoiceProps {
  readonly label: string
  readonly all: string
  readonly options: readonly { readonly key: string; readonly name: string }[]
  readonly value: string | null
  readonly onChoose: (key: string | null) => void
}

function Choice({ label, all, options, value, onChoose }: ChoiceProps) {
  return (
    <Field label={label}>
      {(attributes) => (
        <select
          {...attributes}
          className="st-input"
          value={value ?? ''}
          onChange={(event) => onChoose(event.target.value || null)}
        >
          <option value="">{all}</option>
          {options.map(({ key, name }) => (
            <option key={key} value={key}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
