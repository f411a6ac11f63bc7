/** The parser of PDFs, in a worker of its own: a file that keeps it busy for ever is ended with it. */
import 'pdfjs-dist/legacy/build/pdf.worker.mjs'
