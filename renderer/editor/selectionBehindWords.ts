/** The selection as a layer behind the words, there only while something is selected. */
import { Compartment, EditorState, type Extension } from '@codemirror/state'
import { drawSelection } from '@codemirror/view'

/**
 * Words keep their ink on the layer, and the selection still shows when the keyboard is elsewhere. While nothing is
 * selected there is nothing to draw, but the layer would be measured with every key all the same, which makes the browser
 * lay out the text once more.
 */
export function selectionBehindWords(): Extension {
  const layer = new Compartment()
  return [
    layer.of(none),
    EditorState.transactionExtender.of(({ startState, newSelection }) => {
      const isSelected = newSelection.ranges.some(({ empty }) => !empty)
      const isThere = layer.get(startState) !== none
      if (isSelected === isThere) return null
      return { effects: layer.reconfigure(isSelected ? drawn : none) }
    }),
  ]
}

const none: Extension = []
const drawn: Extension = drawSelection()
