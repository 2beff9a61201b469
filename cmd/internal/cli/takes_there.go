package cli

import (
	"errors"
	"io/fs"
	"os"

	"seamrail/cmd/internal/starter"
)

// shotThere is an error where a shot without a log has no file either: what has
// no takes is then not the shot that was meant.
func shotThere(name, log string) error {
	if name == "" || name == stdout || name == starter.ShotName { // as the built-in one is called
		return nil
	}
	if _, err := os.Stat(log); err == nil {
		return nil
	}
	_, err := os.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return plainRead(name, err)
	}
	return nil
}
