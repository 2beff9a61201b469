package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/whole"
	"seamrail/export/drive/takelog"
)

// logEnding takes the place of the ending of a shot file's name.
const logEnding = ".takes.jsonl"

// logName is the take log of a shot: beside its file, or here if it has none.
func logName(shotFile string) string {
	switch shotFile {
	case "":
		shotFile = starter.ShotName
	case "-":
		shotFile = "stdin"
	}
	return strings.TrimSuffix(shotFile, filepath.Ext(shotFile)) + logEnding
}

// readLog reads the log of a name; there may be none yet.
func readLog(name string) (log takelog.Log, there bool, err error) {
	f, err := whole.Open(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return takelog.Log{}, false, nil
	case err != nil:
		return takelog.Log{}, false, plainRead(name, err)
	}
	defer func() { _ = f.Close() }()
	log, err = takelog.Read(f)
	return log, true, err
}

// logMode lets everyone who can see the shot read its takes.
const logMode = 0o644

// appendLog opens the log of a name, made if it is not there, to write on.
func appendLog(name string) (*os.File, *takelog.Writer, error) {
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_APPEND, logMode)
	if err != nil {
		return nil, nil, cannotLog(name, err)
	}
	last, err := lastByte(f)
	if err != nil {
		_ = f.Close()
		return nil, nil, cannotLog(name, err)
	}
	return f, takelog.NewWriter(f, last), nil
}

// lastByte returns the last byte of a file, or nothing if it is empty.
func lastByte(f *os.File) ([]byte, error) {
	n, err := f.Seek(0, io.SeekEnd)
	if err != nil || n == 0 {
		return nil, err
	}
	last := make([]byte, 1)
	_, err = f.ReadAt(last, n-1)
	return last, err
}

func cannotLog(name string, err error) error {
	var system *fs.PathError
	if errors.As(err, &system) {
		err = system.Err
	}
	return fmt.Errorf("cannot write the take log %s: %w", name, err)
}
