package console_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"testing/synctest"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/console"
	"seamrail/export/drive"
)

// screen takes text once the gate is open.
type screen struct {
	gate chan struct{}
	seen bytes.Buffer
	err  error
}

func (s *screen) Write(p []byte) (int, error) {
	<-s.gate
	if s.err != nil {
		return 0, s.err
	}
	return s.seen.Write(p)
}

// Nobody who prints waits for a screen that takes nothing; once it does, all that
// there was room for comes in order, and that some is missing is said.
func TestNobodyWaitsForAScreen(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &screen{gate: make(chan struct{})}
		q := console.NewQueue(s, func(err error) { t.Error(err) })
		const line = "round after round\n"
		for range 10_000 {
			n, err := q.Write([]byte(line))
			assert.NoError(t, err)
			assert.Equal(t, len(line), n)
			synctest.Wait() // the first is being printed, and waits for the screen
		}
		assert.True(t, q.Busy())
		close(s.gate)
		synctest.Wait()
		assert.False(t, q.Busy())
		_, _ = q.Write([]byte("the last\n"))
		q.Close()
		text := s.seen.String()
		assert.True(t, strings.HasPrefix(text, strings.Repeat(line, 3000)))
		assert.True(t, strings.HasSuffix(text, line+"\n(Lines are missing here: there was no room to print them.)\nthe last\n"))
		assert.Less(t, len(text), 3<<16)
	})
}

// A bar is not drawn again before it has been drawn, so that it is never behind.
func TestABarDoesNotQueue(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &screen{gate: make(chan struct{})}
		q := console.NewQueue(s, func(err error) { t.Error(err) })
		p := console.New(console.Options{Out: console.Raw{W: q}, Live: true, Width: 80, Axes: axes})
		for i := range 1000 {
			p.Progress(drive.Progress{State: drive.Running, Round: int64(i), Position: []float64{1, 2}})
		}
		close(s.gate)
		q.Close()
		assert.Less(t, s.seen.Len(), 1000)
	})
}

// The first failure is told, and once.
func TestAScreenThatIsGoneIsTold(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		gone := errors.New("broken pipe")
		s := &screen{gate: make(chan struct{}), err: gone}
		close(s.gate)
		var told []error
		q := console.NewQueue(s, func(err error) { told = append(told, err) })
		for range 3 {
			_, err := q.Write([]byte("x"))
			assert.NoError(t, err)
			synctest.Wait()
		}
		q.Close()
		assert.Equal(t, []error{gone}, told)
	})
}

// Who leaves does not wait for a screen that takes nothing.
func TestLeavingDoesNotWaitForAScreen(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &screen{gate: make(chan struct{})}
		q := console.NewQueue(s, func(error) {})
		_, _ = q.Write([]byte("x"))
		q.Close()
		close(s.gate)
	})
}
