// Workbooks held open in HyperFormula: one request a line on standard input, one answer a line on standard output.
//   {"open": NAME, "sheets": {title: [[...]]}, "names": [{name, expression}]}
//   {"put": NAME, "at": {sheet, row, col}, "value": ...}
//   {"values": NAME} -> {title: [[...]]}, an error as its text
const { createInterface } = require('node:readline')
const { HyperFormula } = require('hyperformula')

// As other spreadsheet programs compute: see its guide, "Compatibility with Microsoft Excel". No digit is rounded off.
const options = {
  licenseKey: 'gpl-v3', localeLang: 'en-US', accentSensitive: true, useArrayArithmetic: true, ignoreWhiteSpace: 'any',
  smartRounding: false,
}
const books = {}

const answers = {
  open({ open, sheets, names }) {
    books[open] = HyperFormula.buildFromSheets(sheets, options, names)
    return true
  },
  put({ put, at, value }) {
    const book = books[put]
    book.setCellContents({ ...at, sheet: book.getSheetId(at.sheet) }, value)
    return true
  },
  values({ values }) {
    const plain = cell => (cell === null || typeof cell !== 'object' ? cell : cell.value)
    const sheets = books[values].getAllSheetsValues()
    return Object.fromEntries(Object.entries(sheets).map(([title, rows]) => [title, rows.map(row => row.map(plain))]))
  },
}

createInterface({ input: process.stdin }).on('line', line => {
  const request = JSON.parse(line)
  console.log(JSON.stringify(answers[Object.keys(request)[0]](request)))
})
