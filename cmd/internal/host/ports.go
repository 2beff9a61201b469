package host

import (
	"strings"

	"seamrail/motion/base/plain"
)

// PortFacts is what the system knows of a serial port.
type PortFacts struct {
	Name            string
	USB             bool
	Vendor, Product string // USB numbers, hexadecimal
	Serial          string // number of what is plugged in
	Maker, Title    string // what it says it is
}

// Numbers are the vendor's and the product's number, as "1234:00ab", or a dash.
func (p PortFacts) Numbers() string {
	if !p.USB {
		return "-"
	}
	return plain.Line(strings.ToLower(p.Vendor + ":" + p.Product))
}

// Number is the serial number of what is plugged in, or a dash.
func (p PortFacts) Number() string { return known(p.Serial) }

// About is what it says that it is, or a dash.
func (p PortFacts) About() string { return known(strings.TrimSpace(p.Maker + " " + p.Title)) }

// known is a text from a device, made safe to print, or a dash.
func known(s string) string {
	if s = strings.TrimSpace(plain.Line(s)); s == "" {
		return "-"
	}
	return s
}
