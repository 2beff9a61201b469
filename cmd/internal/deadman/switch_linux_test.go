package deadman_test

import (
	"os"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/term"

	"seamrail/cmd/internal/deadman"
)

// soon is far more than any of this takes on a busy machine.
const soon = 20 * time.Second

// watched is a second process that watches this one, with what it says.
func watched(t *testing.T) (s *deadman.Switch, far, near *os.File) {
	t.Helper()
	far, near, err := pty.Open()
	require.NoError(t, err)
	_, err = term.MakeRaw(int(near.Fd()))
	require.NoError(t, err)
	line, err := deadman.Line(near.Name())
	require.NoError(t, err)
	t.Cleanup(func() { _, _, _ = line.Close(), near.Close(), far.Close() })
	s, err = deadman.Start(line, deadman.Words{Hold: []byte("!"), Rest: 10 * time.Millisecond, Forget: []byte("^")})
	require.NoError(t, err)
	return s, far, near
}

func says(t *testing.T, far *os.File) string {
	t.Helper()
	b := make([]byte, 1)
	read := make(chan error, 1)
	go func() { _, err := far.Read(b); read <- err }()
	select {
	case err := <-read:
		require.NoError(t, err)
	case <-time.After(soon):
		t.Fatal("it says nothing")
	}
	return string(b)
}

// One that lets go while something moves has died of something.
func TestWhatMovesIsHeldAndForgotten(t *testing.T) {
	s, far, _ := watched(t)
	require.NoError(t, s.Moves(true))
	require.NoError(t, s.Close())
	assert.Equal(t, "!", says(t, far))
	assert.Equal(t, "^", says(t, far))
}

// One that is stuck is held and, once it is there again, watched on.
func TestOneThatIsStuckIsHeld(t *testing.T) {
	s, far, _ := watched(t)
	require.NoError(t, s.Moves(true))
	assert.Equal(t, "!", says(t, far))
	time.Sleep(250 * time.Millisecond)
	_, err := s.Beat(time.Now())
	require.NoError(t, err)
	assert.Equal(t, "!", says(t, far), "stuck again")
	require.NoError(t, s.Moves(false))
	require.NoError(t, s.Close())
}

// What rests is left alone, for however long, and whatever becomes of the program.
func TestWhatRestsIsLeftAlone(t *testing.T) {
	s, far, near := watched(t)
	require.NoError(t, s.Moves(true))
	for end := time.Now().Add(1500 * time.Millisecond); time.Now().Before(end); {
		next, err := s.Beat(time.Now())
		require.NoError(t, err)
		time.Sleep(min(next, 50*time.Millisecond))
	}
	require.NoError(t, s.Moves(false))
	time.Sleep(1200 * time.Millisecond)
	require.NoError(t, s.Close())
	_, err := near.Write([]byte(".")) // comes after all that was said
	require.NoError(t, err)
	assert.Equal(t, ".", says(t, far))
}

// One that has been killed is missed.
func TestASecondProcessThatIsGoneIsMissed(t *testing.T) {
	s, _, _ := watched(t)
	require.NoError(t, s.Kill())
	assert.Eventually(t, func() bool { return s.Moves(true) != nil }, soon, time.Millisecond)
	require.NoError(t, s.Close())
}

func TestWhatIsNoPortHasNoLine(t *testing.T) {
	_, err := deadman.Line("/dev/null")
	assert.Error(t, err)
	_, err = deadman.Line("/dev/no-such-port")
	assert.Error(t, err)
	var none *deadman.Switch
	require.NoError(t, none.Moves(true))
	_, err = none.Beat(time.Now())
	require.NoError(t, err)
	require.NoError(t, none.Close())
}
