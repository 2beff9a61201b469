package logbook

import (
	"sync"
	"time"

	"seamrail/cmd/internal/hold"
	"seamrail/export/drive/takelog"
)

// Log is a take log that a run writes to, its engine and its keys. No other run gives
// its takes numbers until it is closed.
type Log struct {
	mu     sync.Mutex
	file   *file
	writer *takelog.Writer
	held   *hold.Hold
}

// Add writes one record.
func (l *Log) Add(r takelog.Record) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.writer.Add(r)
}

// Close closes the file and lets others log.
func (l *Log) Close() error {
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

// Keep marks a take as one to keep.
func (l *Log) Keep(take int) error {
	return l.Add(takelog.Record{Kind: takelog.Keeper, Take: take, Keep: true, Time: time.Now()})
}
