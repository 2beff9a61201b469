package cli

import (
	"sync"
	"time"

	"seamrail/cmd/internal/hold"
	"seamrail/export/drive/takelog"
)

// sharedLog is a take log that the engine and the keys write to. No other run
// gives its takes numbers until it is closed.
type sharedLog struct {
	mu     sync.Mutex
	file   *logFile
	writer *takelog.Writer
	held   *hold.Hold
}

// Add writes one record.
func (l *sharedLog) Add(r takelog.Record) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.writer.Add(r)
}

// Close closes the file and lets others log.
func (l *sharedLog) Close() error {
	defer l.held.Drop()
	return l.file.Close()
}

// openLog reads the log of the shot and opens it to go on with.
func (s *session) openLog() error {
	name := logName(s.o.Shot.Shot)
	held, err := holdLog(name)
	if err != nil {
		return err
	}
	before, err := pickLog(name, isTimed)
	if err != nil {
		held.Drop()
		return err
	}
	f, w, err := appendLog(name)
	if err != nil {
		held.Drop()
		return err
	}
	s.before, s.log = before, &sharedLog{file: f, writer: w, held: held}
	return nil
}

// keep marks a take as one to keep.
func (s *session) keep(take int) error {
	return s.log.Add(takelog.Record{Kind: takelog.Keeper, Take: take, Keep: true, Time: time.Now()})
}
