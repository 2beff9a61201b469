package cli

import (
	"os"
	"sync"
	"time"

	"seamrail/export/drive/takelog"
)

// sharedLog is a take log that the engine and the keys write to.
type sharedLog struct {
	mu     sync.Mutex
	file   *os.File
	writer *takelog.Writer
}

// Add writes one record.
func (l *sharedLog) Add(r takelog.Record) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.writer.Add(r)
}

// Close closes the file.
func (l *sharedLog) Close() error { return l.file.Close() }

// now is the time of day of a mark.
func now() time.Time { return time.Now() }
