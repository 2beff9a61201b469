package logbook

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"
	"time"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/hold"
	"seamrail/export/drive/takelog"
)

// logMode lets everyone who can see the shot read its takes.
const logMode = 0o644

// file is a take log that others may write to as well, as "seamrail takes" does
// while a rig is driven.
type file struct {
	name string
	file *os.File
}

// appendTo opens the log of a name, made if it is not there, to write on.
func appendTo(name string) (*file, *takelog.Writer, error) {
	if err := atomicfile.Changeable(name); err != nil {
		return nil, nil, err
	}
	f, err := openToAppend(name)
	if err != nil {
		return nil, nil, cannotWrite(name, err)
	}
	l := &file{name, f}
	return l, takelog.NewWriter(l, nil), nil
}

func openToAppend(name string) (*os.File, error) {
	return os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_APPEND, logMode)
}

// logPatience is how long is waited for another run that writes a line: far longer
// than a disk takes, and no longer than a rig that has just come to rest can wait.
const logPatience = 2 * time.Second

// Write writes a line, which is whole and alone on it whoever else writes: one
// that another has left without an end is ended first.
func (l *file) Write(line []byte) (int, error) {
	if err := l.current(); err != nil {
		return 0, cannotWrite(l.name, err)
	}
	if err := hold.Wait(l.file, logPatience); err != nil {
		return 0, fmt.Errorf("%s: %w; end that run, or wait for it", l.name, err)
	}
	defer hold.Release(l.file)
	last, err := lastByte(l.file)
	if err != nil {
		return 0, cannotWrite(l.name, err)
	}
	if len(last) > 0 && last[0] != '\n' {
		line = append([]byte{'\n'}, line...)
	}
	n, err := l.file.Write(line)
	return min(n, len(line)), err
}

// current opens the log anew where it has been moved away or written anew: what
// is written to a file without a name is lost.
func (l *file) current() error {
	open, err := l.file.Stat()
	if err != nil {
		return err
	}
	if named, err := os.Stat(l.name); err == nil && os.SameFile(open, named) {
		return nil
	}
	f, err := openToAppend(l.name)
	if err != nil {
		return err
	}
	err = l.file.Close()
	l.file = f
	return err
}

// Sync makes what was written last.
func (l *file) Sync() error { return l.file.Sync() }

// Close closes the file.
func (l *file) Close() error { return l.file.Close() }

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

// holdOf keeps other runs that would give takes their numbers out of a log. Marks
// can be made meanwhile.
func holdOf(name string) (*hold.Hold, error) {
	real, err := atomicfile.Real(name)
	if err != nil {
		return nil, cannotWrite(name, err)
	}
	h, err := hold.Take(filepath.Join(filepath.Dir(real), "."+filepath.Base(real)+".lock"))
	switch {
	case errors.Is(err, hold.ErrHeld):
		return nil, fmt.Errorf("another run logs its takes in %s, and two would give them the same numbers; end it first, or drive a copy of the shot under another name, which has a log of its own", name)
	case err != nil:
		return nil, cannotWrite(name, err)
	}
	return h, nil
}

// Log is a take log that a run writes to, its engine and its keys. No other run gives
// its takes numbers until it is closed. A nil one keeps nothing.
type Log struct {
	mu     sync.Mutex
	file   *file
	writer *takelog.Writer
	held   *hold.Hold
}

// Add writes one record.
func (l *Log) Add(r takelog.Record) error {
	if l == nil {
		return nil
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.writer.Add(r)
}

// Close closes the file and lets others log.
func (l *Log) Close() error {
	if l == nil {
		return nil
	}
	defer l.held.Drop()
	return l.file.Close()
}

// Open reads what a log says of hands and of takes so far, and opens it to go on with.
func Open(name string) (before takelog.Log, l *Log, err error) {
	held, err := holdOf(name)
	if err != nil {
		return before, nil, err
	}
	before, err = pick(name, isTimed)
	if err != nil {
		held.Drop()
		return before, nil, err
	}
	f, w, err := appendTo(name)
	if err != nil {
		held.Drop()
		return before, nil, err
	}
	return before, &Log{file: f, writer: w, held: held}, nil
}

// Mark says something of a take.
func (l *Log) Mark(take int, mark takelog.Record) error {
	mark.Take, mark.Time = take, time.Now()
	return l.Add(mark)
}

// Hold keeps other runs from giving takes of a shot their numbers, until it is dropped.
func Hold(shotFile string) (*hold.Hold, error) { return holdOf(NameOf(shotFile)) }
