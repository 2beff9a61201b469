package shake

import (
	"errors"
	"fmt"
	"io"
	"io/fs"

	"seamrail/cmd/internal/atomicfile"
)

// largestRecord is how many bytes of a record are read: an hour of a phone at
// its fastest.
const largestRecord = 64 << 20

// readRecord reads a record of acceleration.
func readRecord(name string) (string, error) {
	file, err := atomicfile.Open(name)
	var path *fs.PathError
	switch {
	case errors.As(err, &path):
		return "", fmt.Errorf("--ring-down: cannot read %s: %w", name, path.Err)
	case err != nil:
		return "", fmt.Errorf("--ring-down: %w", err)
	}
	defer func() { _ = file.Close() }()
	data, err := io.ReadAll(io.LimitReader(file, largestRecord+1))
	switch {
	case errors.As(err, &path):
		return "", fmt.Errorf("--ring-down: cannot read %s: %w", name, path.Err)
	case err != nil:
		return "", fmt.Errorf("--ring-down: cannot read %s: %w", name, err)
	case len(data) > largestRecord:
		return "", fmt.Errorf("--ring-down: %s has more than %d MB; cut out the seconds after the knock", name, largestRecord>>20)
	}
	return string(data), nil
}
