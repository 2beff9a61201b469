//go:build darwin && !cgo

package host

import "go.bug.st/serial"

// Ports knows no more than the names where the system's own library
// cannot be called.
func Ports() ([]PortFacts, error) {
	names, err := serial.GetPortsList()
	if err != nil {
		return nil, err
	}
	out := make([]PortFacts, len(names))
	for i, n := range names {
		out[i] = PortFacts{Name: n}
	}
	return out, nil
}
