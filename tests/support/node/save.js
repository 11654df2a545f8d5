// Opens a workbook and saves it unchanged, with ExcelJS or SheetJS (which is called xlsx there):
//   node save.js exceljs|xlsx FROM TO
const [library, from, to] = process.argv.slice(2)

const saves = {
  async exceljs() {
    const { Workbook } = require('exceljs')
    const book = new Workbook()
    await book.xlsx.readFile(from)
    await book.xlsx.writeFile(to)
  },
  async xlsx() {
    const { readFile, writeFile } = require('xlsx')
    writeFile(readFile(from), to)
  },
}

saves[library]().catch(error => {
  console.error(error)
  process.exit(1)
})
