// Package logbook keeps the log of takes that lies beside a shot: who may write to it,
// what of it counts, and what it tells of the hands of the set.
package logbook

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/drive/takelog"
)

// Ending takes the place of the ending of a shot file's name.
const Ending = ".takes.jsonl"

// NameOf is the take log of a shot: beside its file, or here if it has none.
func NameOf(shotFile string) string {
	switch shotFile {
	case "":
		shotFile = starter.ShotName
	case "-":
		shotFile = "stdin"
	}
	return strings.TrimSuffix(shotFile, filepath.Ext(shotFile)) + Ending
}

// Read reads the log of a name, and holds none of its takes; there may be none
// yet.
func Read(name string) (log takelog.Log, there bool, err error) {
	return opened(name, func(r io.ReadSeeker) (takelog.Log, error) { return takelog.Scan(r) })
}

// Walk reads the log of a name and calls each with its takes in their order.
func Walk(name string, each func(takelog.Take) error) (log takelog.Log, there bool, err error) {
	return opened(name, func(r io.ReadSeeker) (takelog.Log, error) { return takelog.Walk(r, each) })
}

// pick reads the log of a name and holds the takes whose marks are wanted.
func pick(name string, wanted func(marks takelog.Take) bool) (takelog.Log, error) {
	log, _, err := opened(name, func(r io.ReadSeeker) (takelog.Log, error) { return takelog.Pick(r, wanted) })
	return log, err
}

func opened(name string, read func(io.ReadSeeker) (takelog.Log, error)) (log takelog.Log, there bool, err error) {
	if info, err := os.Stat(name); err == nil && !info.Mode().IsRegular() {
		return takelog.Log{}, true, fmt.Errorf("%s is no plain file, and a take log is one; move it away", name)
	}
	f, err := atomicfile.Open(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return takelog.Log{}, false, nil
	case err != nil:
		return takelog.Log{}, false, textfile.Unread(name, err)
	}
	defer func() { _ = f.Close() }()
	log, err = read(f)
	return log, true, err
}

// A take that is kept, and one of which a hand was timed. Virtual ones have no film
// to hand on and no moment at which a hand was seen, whatever a log says.
func isKept(t takelog.Take) bool  { return t.Keep && !t.Virtual() }
func isTimed(t takelog.Take) bool { return t.Late != nil && !t.Virtual() }

func cannotWrite(name string, err error) error {
	var system *fs.PathError
	if errors.As(err, &system) {
		err = system.Err
	}
	return fmt.Errorf("cannot write the take log %s: %w", name, err)
}
