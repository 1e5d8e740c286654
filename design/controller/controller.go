// Package controller knows the microcontrollers that a panel may carry: what each GPIO can do, the
// electrical limits, and which GPIO a module brings out on which terminal. Chips go by part number.
package controller

import "fascia/design/part"

// A Chip is one microcontroller. Currents in milliamperes, voltages in volts, resistances in ohms.
type Chip struct {
	Name           string
	GPIOs          int // GP0 to GP(GPIOs-1)
	ADCFirst       int // first GPIO with an analogue input
	ADCCount       int
	SourceTotalMA  float64 // most that all GPIOs together may source
	SinkTotalMA    float64
	PullUpOhms     [2]float64 // least and most
	PullDownOhms   [2]float64
	VIHVolts       float64 // least voltage that surely reads 1
	VILVolts       float64 // most that surely reads 0
	SystemHz       int     // default system clock
	PIOVersion     int
	PullDownFaulty []string // steppings whose input pull-down cannot hold a pin low
}

// A Function is one row of the chip's function table as it applies to one GPIO.
type Function struct {
	Signal   part.Signal // what a need may ask for
	Instance int         // SPI, UART or I2C instance, PWM slice, ADC channel
	Channel  string      // A or B for PWM
	Name     string      // as data sheets print it: I2C0 SDA, PWM2 A, ADC0
}

// A Pin is a GPIO that a module brings out.
type Pin struct {
	GPIO     int
	Name     string // GP4
	Terminal string // the terminal of the module's definition
	Number   string // printed module pin number
}

// A Module is a chip and the pins that are brought out, in GPIO order.
type Module struct {
	Chip Chip
	Pins []Pin
}
