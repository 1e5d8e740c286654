// Package part holds part definitions: which holes a part takes, how well its leads fit them, what
// its body covers, which terminals are one metal, and the electrical facts that the checks need.
// A definition is drawn at turn 0 on the front, its first terminal at column 0, row 0, columns to
// the right and rows down; millimetres are measured from the centre of that terminal's hole. It
// knows nothing of boards or panels.
package part

import (
	"math"
	"slices"

	"fascia/design/grid"
)

// A Kind says what a part is to the stages that treat it specially.
type Kind string

// The kinds of part. A part of kind Other is only held and wired by the maker's own joins.
const (
	Module      Kind = "module"       // carries the controller
	Switch      Kind = "switch"       // one or more momentary contacts: keys
	Selector    Kind = "selector"     // slide or latching contacts
	PowerSwitch Kind = "power switch" // stands between the charged supply and VSYS
	Encoder     Kind = "encoder"
	Joystick    Kind = "joystick"
	Display     Kind = "display"
	LED         Kind = "led"
	Resistor    Kind = "resistor"
	Diode       Kind = "diode"
	Capacitor   Kind = "capacitor"
	Transistor  Kind = "transistor"
	Piezo       Kind = "piezo"
	Buzzer      Kind = "buzzer"
	Header      Kind = "header"
	Battery     Kind = "battery" // a connector for a cell
	Charger     Kind = "charger"
	Expander    Kind = "expander"
	Other       Kind = "other"
)

// Kinds lists every kind in the order of the parts shelf.
var Kinds = []Kind{Module, Switch, Selector, PowerSwitch, Encoder, Joystick, Display, LED, Resistor,
	Diode, Capacitor, Transistor, Piezo, Buzzer, Header, Battery, Charger, Expander, Other}

// The nets that a terminal may belong to by its nature. Charged is what a charger gives its load;
// where no power switch is placed, Charged and VSYS are one net.
const (
	Ground       = "ground"
	Supply3V3    = "3V3"
	Supply5V     = "5V"
	VSYS         = "VSYS"
	Charged      = "charged +"
	BatteryPlus  = "battery +"
	BatteryMinus = "battery -"
)

// A Definition is one kind of part, as it can be bought.
type Definition struct {
	Name      string     `json:"name"`
	Kind      Kind       `json:"kind"`
	Prefix    string     `json:"prefix"` // letters of its references, such as S in S1
	Terminals []Terminal `json:"terminals"`
	Joined    [][]string `json:"joined"`             // terminals that are one metal inside the part
	Contacts  []Contact  `json:"contacts,omitempty"` // momentary contacts that may become keys
	Bodies    []Body     `json:"bodies"`
	Drills    []Drill    `json:"drills,omitempty"`
	Needs     []Need     `json:"needs"`
	Facts     Facts      `json:"facts"`
	BOM       BOM        `json:"bom"`
	Sources   []Source   `json:"sources"`
}

// A Terminal is one electrical end.
type Terminal struct {
	Name string     `json:"name"`
	At   [2]int     `json:"at"`                // columns and rows from the first terminal
	MM   [2]float64 `json:"mm"`                // nominal place when the part is shifted to fit best
	Lead float64    `json:"lead_mm,omitempty"` // diagonal or diameter of the lead; 0 when unknown
	Net  string     `json:"net,omitempty"`     // the supply net it belongs to by nature
	GPIO string     `json:"gpio,omitempty"`    // on a module, the pin's name, such as GP4
	Pin  string     `json:"pin,omitempty"`     // the number printed beside it
	Open bool       `json:"open,omitempty"`    // may stay unconnected
}

// A Contact is one momentary contact of a part. Between names a terminal of each side: the side
// wired to a row or a GPIO first, the side wired to a column or ground second.
type Contact struct {
	Name    string    `json:"name"`
	Between [2]string `json:"between"`
}

// A Body is what keeps other things away on one face.
type Body struct {
	Face     grid.Face  `json:"face"`
	Rect     [4]float64 `json:"rect"`               // left, top, right, bottom, in millimetres
	Height   float64    `json:"height"`             // above the board, in millimetres
	StandOff float64    `json:"stand_off"`          // clear room between board and body, in millimetres
	Shape    string     `json:"shape,omitempty"`    // round for a disc; otherwise a rectangle
	Overhang string     `json:"overhang,omitempty"` // edge of the part that may overhang the board, such as a socket: left, top, right or bottom
	Window   []float64  `json:"window,omitempty"`   // a display's visible area: left, top, right, bottom
	Label    string     `json:"label,omitempty"`    // what the body is, when a part has several
	Plugged  bool       `json:"plugged,omitempty"`  // comes off its socket, so that joints under it stay reachable
}

// A Drill is a hole to be made off the grid.
type Drill struct {
	MM       [2]float64 `json:"mm"`
	Diameter float64    `json:"diameter"`
	Why      string     `json:"why"`
}

// A Need is a signal that a terminal wants from the controller.
type Need struct {
	Terminal string `json:"terminal"`
	Signal   Signal `json:"signal"`
	Pull     string `json:"pull,omitempty"`     // up or down: what the pin must add
	Optional bool   `json:"optional,omitempty"` // left open, or tied as Idle says, when pins are short
	Says     string `json:"says,omitempty"`     // what it carries, such as data/command
}

// A Signal is what a controller pin must be able to do.
type Signal string

// The signals a need may name. SPI TX is data towards the part, SPI RX data from it. A chip select
// is a digital output, since the hardware select pauses between words.
const (
	I2CSDA     Signal = "I2C SDA"
	I2CSCL     Signal = "I2C SCL"
	SPISCK     Signal = "SPI SCK"
	SPITX      Signal = "SPI TX"
	SPIRX      Signal = "SPI RX"
	PWM        Signal = "PWM"
	ADC        Signal = "ADC"
	DigitalOut Signal = "digital out"
	DigitalIn  Signal = "digital in"
)

// Signals lists every signal.
var Signals = []Signal{I2CSDA, I2CSCL, SPISCK, SPITX, SPIRX, PWM, ADC, DigitalOut, DigitalIn}

// Facts are the electrical figures of a part. A zero means unknown or not applicable.
type Facts struct {
	SupplyMinVolts  float64  `json:"supply_min_volts,omitempty"`
	SupplyMaxVolts  float64  `json:"supply_max_volts,omitempty"`
	CurrentMA       float64  `json:"current_ma,omitempty"`        // drawn from its supply, typical
	SupplyOutMA     float64  `json:"supply_out_ma,omitempty"`     // what its 3V3 output can give
	DriveMA         float64  `json:"drive_ma,omitempty"`          // drawn from the pin that drives it
	LogicFromSupply bool     `json:"logic_from_supply,omitempty"` // puts its supply voltage on its signal pins
	I2CAddresses    []string `json:"i2c_addresses,omitempty"`     // 7-bit, such as 0x3C; the first is the usual one
	PullUpOhms      float64  `json:"pull_up_ohms,omitempty"`      // on SDA and SCL, to its own supply
	PinOrderVaries  bool     `json:"pin_order_varies,omitempty"`  // sold with its supply pins either way round
	KeyLines        []string `json:"key_lines,omitempty"`         // of an expander: terminals that can read a key, in order of use
	NoChipSelect    bool     `json:"no_chip_select,omitempty"`    // always selected: cannot share its bus
	ForwardVolts    float64  `json:"forward_volts,omitempty"`
	ForwardMA       float64  `json:"forward_ma,omitempty"` // current the figure holds at, or the LED's planned current
	Ohms            float64  `json:"ohms,omitempty"`
	Watts           float64  `json:"watts,omitempty"`
	Farads          float64  `json:"farads,omitempty"`
	BounceMS        float64  `json:"bounce_ms,omitempty"`
	ContactMA       float64  `json:"contact_ma,omitempty"`
	Chip            string   `json:"chip,omitempty"`   // a module's controller, such as RP2040
	Values          []string `json:"values,omitempty"` // values it is sold with: resistances, colours, steppings
}

// BOM is what the parts list prints.
type BOM struct {
	Text   string   `json:"text"`             // what to ask a shop for
	Extras []string `json:"extras,omitempty"` // bought with each, such as two 1 x 20 sockets
	Note   string   `json:"note,omitempty"`
}

// A Source says where a figure comes from.
type Source struct {
	Figure string `json:"figure"`
	Source string `json:"source"`
}

// Offset is where the terminal lies in holes from the first terminal.
func (t Terminal) Offset() grid.Offset { return grid.Offset{Cols: t.At[0], Rows: t.At[1]} }

// Point is the terminal's nominal place.
func (t Terminal) Point() grid.Point {
	return grid.Point{X: grid.Millimetre(t.MM[0]), Y: grid.Millimetre(t.MM[1])}
}

// Residual is how far the nominal lead lies from the centre of the hole it is put into.
func (t Terminal) Residual() grid.Millimetre { return t.Point().Distance(t.Offset().Point()) }

// Rectangle is the body's outline.
func (b Body) Rectangle() grid.Rect {
	return grid.RectOf(
		grid.Point{X: grid.Millimetre(b.Rect[0]), Y: grid.Millimetre(b.Rect[1])},
		grid.Point{X: grid.Millimetre(b.Rect[2]), Y: grid.Millimetre(b.Rect[3])})
}

// Terminal returns the terminal called name.
func (d *Definition) Terminal(name string) (Terminal, bool) {
	i := slices.IndexFunc(d.Terminals, func(t Terminal) bool { return t.Name == name })
	if i < 0 {
		return Terminal{}, false
	}
	return d.Terminals[i], true
}

// Contact returns the contact called name; a part with a single contact also answers to "".
func (d *Definition) Contact(name string) (Contact, bool) {
	if name == "" && len(d.Contacts) == 1 {
		return d.Contacts[0], true
	}
	i := slices.IndexFunc(d.Contacts, func(c Contact) bool { return c.Name == name })
	if i < 0 {
		return Contact{}, false
	}
	return d.Contacts[i], true
}

// Metal returns the terminals that are one metal with name, itself included, in definition order.
func (d *Definition) Metal(name string) []string {
	for _, set := range d.Joined {
		if slices.Contains(set, name) {
			return set
		}
	}
	return []string{name}
}

// WorstResidual is the largest residual of any terminal.
func (d *Definition) WorstResidual() grid.Millimetre {
	worst := 0.0
	for _, t := range d.Terminals {
		worst = math.Max(worst, float64(t.Residual()))
	}
	return grid.Millimetre(worst)
}
