package hold

import "fascia/design/scan"

// A bench is the lines of a scan as nodes, with the keys between them. Rows come first, then columns;
// where one line both reads and is driven it is one node.
type bench struct {
	result *scan.Result
	judge  Judge
	cells  []scan.Cell
	number map[string]int  // of a key's cell
	at     map[[2]int]int  // the cell between a row's node and a column's
	row    []int           // node of each cell's row
	column []int           // and of its column
	diode  []bool          // by cell
	own    map[string]bool // keys with a line of their own, which disturb nobody
}

func benchOf(r *scan.Result) *bench {
	b := &bench{result: r, cells: r.Cells, number: map[string]int{}, at: map[[2]int]int{}, own: map[string]bool{}}
	for i, c := range r.Cells {
		column := c.Column
		if r.Style != "lines" {
			column += r.Rows
		}
		b.number[c.Key] = i
		b.at[[2]int{c.Row, column}] = i
		b.row, b.column = append(b.row, c.Row), append(b.column, column)
		b.diode = append(b.diode, c.Diode)
	}
	for _, d := range r.Direct {
		b.own[d.Key] = true
	}
	return b
}

func (b *bench) name(node int) string {
	if node < b.result.Rows {
		return b.result.RowNet(node)
	}
	return b.result.ColumnNet(node - b.result.Rows)
}

// known drops what is no key of the scan.
func (b *bench) known(keys []string) []string {
	list := []string{}
	for _, k := range keys {
		if _, ok := b.number[k]; ok || b.own[k] {
			list = append(list, k)
		}
	}
	return list
}
