import { type Cells, type Field, fieldNames, type Mapping } from '../../core/contract/exchange.ts'

/** Which of the fields a target has, and under which names. Whorl's own table has all of them under theirs. */
export type Layout = { table: string; columns: Partial<Record<Field, string>>; own: boolean }

export const ownTable = 'whorl_spin'
export const ownLayout: Layout = {
  table: ownTable,
  columns: Object.fromEntries(fieldNames.map(name => [name, name])),
  own: true,
}

export const layoutOf = (mapping: Mapping | null): Layout =>
  mapping === null ? ownLayout : { table: mapping.table, columns: mapping.columns, own: isOwn(mapping) }

const isOwn = ({ table, columns }: Mapping) =>
  table === ownTable && fieldNames.every(name => columns[name] === name)

/** The fields with a column, in the order of the table that Whorl would make. */
export const fieldsOf = (layout: Layout): Field[] => fieldNames.filter(name => layout.columns[name])
export const valueFieldsOf = (layout: Layout): Field[] =>
  fieldsOf(layout).filter(name => name !== 'paddle' && name !== 'set_up')
export const columnOf = (layout: Layout, field: Field): string => layout.columns[field]!

/** Cells by field, with the keys as text. */
export const keyCells = (layout: Layout, { paddle, setUp }: { paddle: string; setUp: string }): Cells =>
  layout.columns.set_up ? { paddle, set_up: setUp } : { paddle }
