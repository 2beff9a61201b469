package host

import (
	"runtime/debug"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/export/drive"
)

// What the system refuses is told once, and at rest all is as it was.
func TestWhileSomethingMoves(t *testing.T) {
	percent := debug.SetGCPercent(100)
	defer debug.SetGCPercent(percent)
	w := New(silent{make(chan struct{})}, 0, nil, nil)
	var told []string
	w.Guard(drive.LastWords{Hold: []byte("!")}, First, func(text string) { told = append(told, text) })
	for range 2 {
		w.Moves(true)
		w.Moves(true)
		assert.Equal(t, -1, debug.SetGCPercent(-1), "memory is not tidied up")
		w.Moves(false)
		assert.Equal(t, 100, debug.SetGCPercent(100))
	}
	assert.LessOrEqual(t, len(told), 1)
	assert.Equal(t, len(told), strings.Count(strings.Join(told, ""), "does not let seamrail go before other programs"))
	assert.NoError(t, w.Close())
}

// wireKept is a port that keeps what is written.
type wireKept struct {
	silent
	kept chan string
}

func (k wireKept) Write(p []byte) (int, error) { k.kept <- string(p); return len(p), nil }

// A world that is closed in mid-motion, since its engine has panicked, holds.
func TestAWorldThatIsClosedInMotionHolds(t *testing.T) {
	k := wireKept{silent{make(chan struct{})}, make(chan string, 1)}
	w := New(k, 0, nil, nil)
	w.Guard(drive.LastWords{Hold: []byte("!")}, Ordinary, func(string) {})
	w.Moves(true)
	assert.NoError(t, w.Close())
	assert.Equal(t, "!", <-k.kept)
	w.Moves(false)
}
