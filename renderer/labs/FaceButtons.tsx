/** Light or dark, and how large: kept for the program as a whole. */
import { useEffect, useState } from 'react'
import { useOffered } from '../store/offers.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { applyFace, Button, defaultFace, isFace, textSizes, themeChoices, type Face } from '../ui/index.ts'
import { TextSizeIcon, ThemeIcon } from '../ui/icons.tsx'

const next = <T,>(all: readonly T[], one: T): T => all[(all.indexOf(one) + 1) % all.length]!

export function FaceButtons() {
  const { registry } = useWorkspace().parts
  const [face, setFace] = useState<Face>(defaultFace)
  useEffect(() => {
    void registry.findSetting('face').then((kept) => {
      if (isFace(kept)) setFace(kept)
    })
  }, [registry])
  useEffect(() => applyFace(face), [face])
  const change = (part: Partial<Face>): void => {
    const changed = { ...face, ...part }
    setFace(changed)
    void registry.keepSetting('face', changed)
  }
  useOffered(() => ({
    about: 'The program',
    lines: [
      ...textSizes.map((size) => ({
        id: `size ${size}`,
        word: `Text size: ${size}`,
        icon: TextSizeIcon,
        isChosen: size === face.size,
        onChoose: () => change({ size }),
      })),
      ...themeChoices.map((theme) => ({
        id: `theme ${theme}`,
        word: `Theme: ${theme}`,
        icon: ThemeIcon,
        isChosen: theme === face.theme,
        onChoose: () => change({ theme }),
      })),
    ],
  }))
  return (
    <>
      <Button
        look="quiet"
        icon={TextSizeIcon}
        label={`Text size: ${face.size}`}
        onClick={() => change({ size: next(textSizes, face.size) })}
      />
      <Button
        look="quiet"
        icon={ThemeIcon}
        label={`Theme: ${face.theme}`}
        onClick={() => change({ theme: next(themeChoices, face.theme) })}
      />
    </>
  )
}
