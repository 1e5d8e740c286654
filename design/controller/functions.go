package controller

import (
	"fmt"
	"slices"

	"fascia/design/part"
)

// The roles of a group of four GPIOs. They repeat along the chip, which is what makes the function
// table a closed form (io_bank0.h of pico-sdk 2.2.0 lists it pin by pin; the tests compare).
var (
	spiRoles  = [4]string{"RX", "CSn", "SCK", "TX"}
	uartRoles = [4]string{"TX", "RX", "CTS", "RTS"}
	i2cRoles  = [2]string{"SDA", "SCL"}
)

// Functions lists what GPIO gpio can do, in the order of the chip's function-select codes: SPI,
// UART, I2C, PWM, plain digital, then the analogue input. UART functions and the hardware SPI select
// carry no part.Signal, as no need asks for them. A GPIO that the chip lacks has no functions.
func (c *Chip) Functions(gpio int) []Function {
	if gpio < 0 || gpio >= c.GPIOs {
		return nil
	}
	list := []Function{spi(gpio), uart(gpio)}
	if c.PIOVersion > 0 && gpio&3 >= 2 { // the second UART column of RP2350: CTS and RTS pins again as TX and RX
		list = append(list, uartAgain(gpio))
	}
	list = append(list, i2c(gpio), pwm(gpio),
		Function{Signal: part.DigitalOut, Name: "digital out"},
		Function{Signal: part.DigitalIn, Name: "digital in"})
	if ch := gpio - c.ADCFirst; ch >= 0 && ch < c.ADCCount {
		list = append(list, Function{Signal: part.ADC, Instance: ch, Name: fmt.Sprintf("ADC%d", ch)})
	}
	return list
}

// Can returns the function by which GPIO gpio can carry signal s.
func (c *Chip) Can(gpio int, s part.Signal) (Function, bool) {
	if s == "" {
		return Function{}, false
	}
	list := c.Functions(gpio)
	i := slices.IndexFunc(list, func(f Function) bool { return f.Signal == s })
	if i < 0 {
		return Function{}, false
	}
	return list[i], true
}

func spi(gpio int) Function {
	n, role := gpio>>3&1, gpio&3
	signals := [4]part.Signal{part.SPIRX, "", part.SPISCK, part.SPITX}
	return Function{Signal: signals[role], Instance: n, Name: fmt.Sprintf("SPI%d %s", n, spiRoles[role])}
}

func uart(gpio int) Function {
	n := (gpio + 4) >> 3 & 1
	return Function{Instance: n, Name: fmt.Sprintf("UART%d %s", n, uartRoles[gpio&3])}
}

func uartAgain(gpio int) Function {
	n := (gpio + 4) >> 3 & 1
	return Function{Instance: n, Name: fmt.Sprintf("UART%d %s", n, uartRoles[gpio&3-2])}
}

func i2c(gpio int) Function {
	n, role := gpio>>1&1, gpio&1
	signals := [2]part.Signal{part.I2CSDA, part.I2CSCL}
	return Function{Signal: signals[role], Instance: n, Name: fmt.Sprintf("I2C%d %s", n, i2cRoles[role])}
}

// pwm gives the slice that drives a GPIO. GP(n) and GP(n+16) share one output, so they can never
// carry two different duties.
func pwm(gpio int) Function {
	slice, channel := gpio>>1&7, string("AB"[gpio&1])
	return Function{Signal: part.PWM, Instance: slice, Channel: channel, Name: fmt.Sprintf("PWM%d %s", slice, channel)}
}
