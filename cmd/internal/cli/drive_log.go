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

// openLog reads the log of the shot and opens it to go on with.
func (s *session) openLog() error {
	name := logName(s.o.Shot.Shot)
	before, _, err := readLog(name)
	if err != nil {
		return err
	}
	f, w, err := appendLog(name)
	if err != nil {
		return err
	}
	s.before, s.log = before, &sharedLog{file: f, writer: w}
	return nil
}

// keep marks a take as one to keep.
func (s *session) keep(take int) error {
	return s.log.Add(takelog.Record{Kind: takelog.Keeper, Take: take, Keep: true, Time: time.Now()})
}
