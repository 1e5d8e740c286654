package view

// A Start is the page that lists the panels.
type Start struct {
	Head
	Panels      []Card
	Gone        []Gone // in the trash, the last deleted first
	JustDeleted *Gone  // for the bar that offers to undo it
	Parts       []Saved
	Sizes       []Size
	Refusal     string // why the last thing asked for was not done; "" for none
}

// A Card is one panel in the list.
type Card struct {
	ID, Name          string
	Picture           string // address of its small picture
	Rev               int64
	Boards            string // 30 × 22 holes, 76 × 56 mm
	Keys              int
	Stops, Minds      int
	Changed, ChangedT string // when, in words and for the datetime attribute
	Unreadable        string // why it could not be read; "" for none
}

// A Gone panel can be brought back.
type Gone struct{ ID, Name, When string }

// A Saved part is one of the maker's own definitions.
type Saved struct {
	ID, Name, Kind string
	Outline        Outline
	Stock          int
}

// A Size is a board as it is commonly sold.
type Size struct {
	Value string // columns x rows, such as 24x18
	Label string // 70 × 50 mm, 24 × 18 holes
	Usual bool   // offered first
	// The figures for scripts that fill a form.
	Columns, Rows int
	Margins       string // left, top, right and bottom in millimetres, with spaces between
}
