//go:build !darwin || cgo

package host

import "go.bug.st/serial/enumerator"

// Ports asks the system, without opening or probing anything.
func Ports() ([]PortFacts, error) {
	list, err := enumerator.GetDetailedPortsList()
	if err != nil {
		return nil, err
	}
	out := make([]PortFacts, len(list))
	for i, p := range list {
		out[i] = PortFacts{p.Name, p.IsUSB, p.VID, p.PID, p.SerialNumber, p.Manufacturer, p.Product}
	}
	return out, nil
}
