/** A sheet of a list as it was read. */
import type { Columns } from "../../../shared/lists/columns.js";
import type { ReadList } from "../../../shared/lists/read-rows.js";
import type { Sheet } from "../../../shared/lists/table.js";

export interface ReadSheet {
  readonly sheet: Sheet;
  readonly columns: Columns;
  readonly list: ReadList;
}
