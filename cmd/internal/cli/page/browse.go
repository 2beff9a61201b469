package page

import (
	"os/exec"
	"runtime"

	"seamrail/cmd/internal/deadman"
)

// browse opens an address in the browser that the system prefers. It does not
// wait for it.
func browse(address string) error {
	var c *exec.Cmd
	switch runtime.GOOS {
	case "darwin":
		c = exec.Command("open", address)
	case "windows":
		c = exec.Command("rundll32", "url.dll,FileProtocolHandler", address)
	default:
		c = exec.Command("xdg-open", address)
	}
	if err := c.Start(); err != nil {
		return err
	}
	deadman.Go(func() { _ = c.Wait() })
	return nil
}
