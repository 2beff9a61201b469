//go:build !linux

package host

import (
	"os"

	"go.bug.st/serial"
)

func shared(p serial.Port, _ *os.File) Port { return p }
