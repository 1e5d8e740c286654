package view

// A PlaceRoom is the parts shelf, and the boards that parts are placed on.
type PlaceRoom struct {
	Kinds  []Shelf
	Boards []BoardForm
	Sizes  []Size
	NewID  string // the id that another board would get
	Joined bool   // there is a second board already
}

// A Shelf is the parts of one kind.
type Shelf struct {
	Kind, Label string
	Parts       []ShelfPart
}

// A ShelfPart is one definition to place.
type ShelfPart struct {
	ID, Name, Says string // Says holds what else the search looks at
	Outline        Outline
	Own            bool
	Stock          int    // how many the maker has; -1 when not said
	OnPanel        int    // how many are placed
	Definition     string // JSON, for a part that the panel and the catalogue do not know
}

// A BoardForm is one board to change.
type BoardForm struct {
	ID, At               string
	Columns, Rows        int
	Copper, Faces, Along string
	Plated               bool
	Cuts                 string
	Margins              [4]string
	JSON                 string // all of the board, for what the form does not show
	SeamBoard, SeamSide  string
	AcrossMM, AlongMM    string
	Removable            bool
	Outline              string // 76.2 × 55.9 mm
	Neighbours           []string
}
