package logbook

import (
	"errors"
	"io/fs"
	"os"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
)

// Belongs is an error where a log would not be that of a shot: the file of the name is
// something else, or there is neither a file nor a log, and what has no takes is then
// not the shot that was meant.
func Belongs(shotFile string) error {
	if err := there(shotFile, NameOf(shotFile)); err != nil {
		return err
	}
	return textfile.AShot(shotFile)
}

func there(name, log string) error {
	if name == "" || name == textfile.Stdin || name == starter.ShotName { // as the built-in one is called
		return nil
	}
	if _, err := os.Stat(log); err == nil {
		return nil
	}
	_, err := os.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return textfile.Unread(name, err)
	}
	return nil
}
