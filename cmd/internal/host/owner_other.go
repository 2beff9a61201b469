//go:build !linux

package host

// Holders names the other programs that have a port open: not told on this system.
func Holders(string) []string { return nil }

// GroupOf is the group that may use a port: not told on this system.
func GroupOf(string) string { return "" }
