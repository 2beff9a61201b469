package console

import (
	"io"
	"sync"
	"time"

	"seamrail/cmd/internal/deadman"
)

const (
	// maxHeld is how much text waits for a screen that takes none: some thousand
	// lines, more than a run says in minutes.
	maxHeld = 1 << 16
	// lastLines is how long Close waits for a screen that takes none.
	lastLines = time.Second
	// lostLines says that some have not been printed.
	lostLines = "\n(Lines are missing here: there was no room to print them.)\n"
)

// Queue prints on a goroutine of its own, so that nobody who writes waits for a
// screen. It drops what there is no room for. Close ends the goroutine.
type Queue struct {
	w      io.Writer
	failed func(error)

	mu     sync.Mutex
	change *sync.Cond
	held   []byte
	busy   bool // some are being printed
	lost   bool // some were dropped
	broken bool // nothing can be printed any more
	over   bool
}

// NewQueue prints to w. failed is told the first write that fails, after which
// nothing is printed any more.
func NewQueue(w io.Writer, failed func(error)) *Queue {
	q := &Queue{w: w, failed: failed}
	q.change = sync.NewCond(&q.mu)
	deadman.Go(q.print)
	return q
}

// Write takes p, or drops it. It does not wait and does not fail.
func (q *Queue) Write(p []byte) (int, error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	switch {
	case q.broken || q.over:
	case len(q.held)+len(p) > maxHeld:
		q.lost = true
	default:
		if q.lost {
			q.held, q.lost = append(q.held, lostLines...), false
		}
		q.held = append(q.held, p...)
		q.change.Broadcast()
	}
	return len(p), nil
}

// Busy tells whether something is still to be printed.
func (q *Queue) Busy() bool {
	q.mu.Lock()
	defer q.mu.Unlock()
	return q.waits()
}

func (q *Queue) waits() bool { return q.busy || len(q.held) > 0 }

func (q *Queue) print() {
	for {
		text, ok := q.take()
		if !ok {
			return
		}
		_, err := q.w.Write(text)
		q.mu.Lock()
		q.busy, q.broken = false, q.broken || err != nil
		if q.broken {
			q.held = nil
		}
		q.change.Broadcast()
		q.mu.Unlock()
		if err != nil {
			q.failed(err)
		}
	}
}

// take waits for text; false when no more comes.
func (q *Queue) take() ([]byte, bool) {
	q.mu.Lock()
	defer q.mu.Unlock()
	for len(q.held) == 0 && !q.over {
		q.change.Wait()
	}
	text := q.held
	q.held, q.busy = nil, len(text) > 0
	return text, q.busy
}

// Close prints what there still is, for a moment.
func (q *Queue) Close() {
	late := time.AfterFunc(lastLines, func() {
		q.mu.Lock()
		defer q.mu.Unlock()
		q.broken, q.held = true, nil
		q.change.Broadcast()
	})
	defer late.Stop()
	q.mu.Lock()
	defer q.mu.Unlock()
	for q.waits() && !q.broken {
		q.change.Wait()
	}
	q.over = true
	q.change.Broadcast()
}
