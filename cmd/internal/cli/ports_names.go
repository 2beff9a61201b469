//go:build darwin && !cgo

package cli

import "go.bug.st/serial"

// systemPorts knows no more than the names where the system's own library
// cannot be called.
func systemPorts() ([]PortFacts, error) {
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
