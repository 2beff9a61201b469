package cli

// What tests outside the package may call.
var (
	PortsRun = portsRun
	NewRun   = newRun
	OpenPort = &openPort
)

// World is what they may connect to.
type World = world
