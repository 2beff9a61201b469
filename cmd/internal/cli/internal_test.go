package cli

// What tests outside the package may call.
var (
	PortsRun = portsRun
	NewRun   = newRun
)
