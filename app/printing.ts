/** The page on paper: through the system's print dialog, or as a PDF (ISO 32000) by Chromium. */
import type { BrowserWindow } from 'electron'
import { done, failed, type HostAnswer, type HostArgument, type HostResult } from '../shared/host.ts'
import { saveFile } from './files.ts'
import { toSentence } from './sentences.ts'

/**
 * Chromium draws the numbers of pages itself, in a document apart from ours that our policy does not reach; sizes must be
 * said there. Nothing that the person wrote stands in it.
 */
const pageNumbers =
  '<div style="width:100%;font:8pt sans-serif;text-align:center">' +
  'Page <span class="pageNumber"></span> of <span class="totalPages"></span></div>'

/** In inches. The style sheet of the page says the same; this is for what it does not reach. */
const margins = { top: 0.5, bottom: 0.7, left: 0.55, right: 0.55 }

/** The printed page is made before the person is asked where to, so that it is the page of this moment. */
export async function printPage(
  window: BrowserWindow,
  argument: HostArgument<'printPage'>,
): Promise<HostResult<HostAnswer<'printPage'>>> {
  return argument.to === 'PDF' ? savePdf(window, argument) : printOnPaper(window, argument)
}

async function savePdf(
  window: BrowserWindow,
  { paper, suggestedName }: HostArgument<'printPage'>,
): Promise<HostResult<HostAnswer<'printPage'>>> {
  let bytes: Uint8Array
  try {
    bytes = await window.webContents.printToPDF({
      pageSize: paper,
      // All that is to be seen is drawn with lines; a window's own ground would show at the edges of pages.
      printBackground: false,
      margins,
      displayHeaderFooter: true,
      headerTemplate: '<span></span>',
      footerTemplate: pageNumbers,
    })
  } catch (error) {
    return failed('not printed', toSentence('The PDF could not be made', error))
  }
  return saveFile(window, { suggestedName, mediaType: 'application/pdf', bytes })
}

function printOnPaper(
  window: BrowserWindow,
  { paper }: HostArgument<'printPage'>,
): Promise<HostResult<HostAnswer<'printPage'>>> {
  return new Promise((resolve) => {
    window.webContents.print({ printBackground: false, pageSize: paper }, (isDone, reason) => {
      if (isDone) resolve(done({ kind: 'printed' }))
      else if (/cancel/iu.test(reason)) resolve(done({ kind: 'cancelled' }))
      else resolve(failed('not printed', notPrinted))
    })
  })
}

const notPrinted =
  'It was not printed: no printer took it. Nothing was changed. See whether a printer is set up and ready, or save it as a PDF and print that elsewhere.'
