package panel

import "fascia/design/grid"

// Move shifts parts by whole holes.
type Move struct {
	Refs    []string `json:"refs"`
	Columns int      `json:"columns"`
	Rows    int      `json:"rows"`
}

// Do is the edit's name.
func (e *Move) Do() string { return "move" }

// Label names the parts.
func (e *Move) Label() string { return "Move " + refList(e.Refs) }

func (e *Move) apply(p *Panel) error {
	if err := reasonable(e.Columns, e.Rows); err != nil {
		return err
	}
	return p.eachRef(e.Refs, func(pl *Placed) error {
		pl.At = pl.At.Add(grid.Offset{Cols: e.Columns, Rows: e.Rows})
		return p.onGrid(pl)
	})
}

func reasonable(columns, rows int) error {
	if max(columns, -columns, rows, -rows) > grid.MaxIndex {
		return refuse("a move of %d columns and %d rows leaves every board", columns, rows)
	}
	return nil
}

func (p *Panel) onGrid(pl *Placed) error {
	if !pl.At.Valid() {
		return refuse("%s would leave the grid of holes at its top or left edge", pl.Ref)
	}
	return nil
}

// TurnParts turns parts by quarter turns clockwise seen from the front, each about its own middle
// as nearly as the holes allow.
type TurnParts struct {
	Refs     []string `json:"refs"`
	Quarters int      `json:"quarters"`
}

// Do is the edit's name.
func (e *TurnParts) Do() string { return "turn" }

// Label names the parts.
func (e *TurnParts) Label() string { return "Turn " + refList(e.Refs) }

func (e *TurnParts) apply(p *Panel) error {
	return p.eachRef(e.Refs, func(pl *Placed) error {
		before := p.middle(pl)
		pl.Turn = grid.Turn(((int(pl.Turn)+e.Quarters)%4 + 4) % 4)
		return p.recentre(pl, before)
	})
}

// Flip moves parts to the other face; each keeps its middle.
type Flip struct {
	Refs []string `json:"refs"`
}

// Do is the edit's name.
func (e *Flip) Do() string { return "flip" }

// Label names the parts.
func (e *Flip) Label() string { return "Flip " + refList(e.Refs) }

func (e *Flip) apply(p *Panel) error {
	return p.eachRef(e.Refs, func(pl *Placed) error {
		before := p.middle(pl)
		pl.Face = pl.Face.Other()
		return p.recentre(pl, before)
	})
}

// middle is the centre of the rectangle of holes that a part takes, in half holes so that it stays
// whole.
func (p *Panel) middle(pl *Placed) grid.Offset {
	d := p.Parts[pl.Part]
	lo, hi := pl.At, pl.At
	for _, t := range d.Terminals {
		h := pl.Pose().Hole(t.Offset())
		lo = grid.Hole{Col: min(lo.Col, h.Col), Row: min(lo.Row, h.Row)}
		hi = grid.Hole{Col: max(hi.Col, h.Col), Row: max(hi.Row, h.Row)}
	}
	return grid.Offset{Cols: lo.Col + hi.Col, Rows: lo.Row + hi.Row}
}

// recentre shifts a part so that its middle is where it was; an odd half step falls to the right
// and down when turning one way and back when turning again, so that four turns come home.
func (p *Panel) recentre(pl *Placed, before grid.Offset) error {
	now := p.middle(pl)
	pl.At = pl.At.Add(grid.Offset{Cols: (before.Cols - now.Cols) / 2, Rows: (before.Rows - now.Rows) / 2})
	return p.onGrid(pl)
}

// Duplicate copies parts, shifted by whole holes, under new references. Copied keys have no legend
// yet, since two keys of one meaning are rarely meant.
type Duplicate struct {
	Refs    []string `json:"refs"`
	Columns int      `json:"columns"`
	Rows    int      `json:"rows"`
}

// Do is the edit's name.
func (e *Duplicate) Do() string { return "duplicate" }

// Label names the parts.
func (e *Duplicate) Label() string { return "Duplicate " + refList(e.Refs) }

func (e *Duplicate) apply(p *Panel) error {
	if err := reasonable(e.Columns, e.Rows); err != nil {
		return err
	}
	var copies []Placed
	err := p.eachRef(e.Refs, func(pl *Placed) error {
		c := pl.clone()
		c.At = c.At.Add(grid.Offset{Cols: e.Columns, Rows: e.Rows})
		if c.Key != nil {
			*c.Key = Key{Direct: c.Key.Direct}
		}
		copies = append(copies, c)
		return p.onGrid(&c)
	})
	if err != nil {
		return err
	}
	for _, c := range copies {
		d := p.Parts[c.Part]
		c.Ref = p.nextRef(d.Prefix)
		p.Placed = append(p.Placed, c)
	}
	return nil
}
