package cli

// PortsRun is what tests outside the package may call.
var PortsRun = portsRun
