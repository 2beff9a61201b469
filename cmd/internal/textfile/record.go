package textfile

import (
	"fmt"
	"io"

	"seamrail/cmd/internal/atomicfile"
)

// largestRecord is how many bytes of a record are read: an hour of a phone at
// its fastest.
const largestRecord = 64 << 20

// Record reads a record of acceleration, which no hand has written.
func Record(name string) (string, error) {
	file, err := atomicfile.Open(name)
	if cause, ok := atomicfile.Cause(err); ok {
		return "", fmt.Errorf("cannot read %s: %w", name, cause)
	}
	if err != nil {
		return "", err
	}
	defer func() { _ = file.Close() }()
	data, err := io.ReadAll(io.LimitReader(file, largestRecord+1))
	if err != nil {
		cause, _ := atomicfile.Cause(err)
		return "", fmt.Errorf("cannot read %s: %w", name, cause)
	}
	if len(data) > largestRecord {
		return "", fmt.Errorf("%s has more than %d MB; cut out the seconds after the knock", name, largestRecord>>20)
	}
	return string(data), nil
}
