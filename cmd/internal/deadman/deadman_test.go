package deadman_test

import (
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/deadman"
)

// dyings are programs that panic while a rig is driven.
var dyings = map[string]func(){
	"goroutine": func() {
		deadman.Go(func() { panic("planted") })
		select {}
	},
	"own": func() { deadman.Guard(func() { panic("planted") }) },
	"answer": func() {
		s := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) {
			defer deadman.Answered()
			panic("planted")
		}))
		_, _ = http.Get(s.URL)
	},
}

// TestMain is one of them, or a second process, when a test starts it so.
func TestMain(m *testing.M) {
	if len(os.Args) > 1 {
		if code, asked := deadman.Asked(os.Args[1:]); asked {
			os.Exit(code)
		}
		if die := dyings[os.Args[1]]; die != nil {
			deadman.OnPanic(func() { fmt.Fprintln(os.Stderr, "held") })
			deadman.OnPanic(func() { fmt.Fprintln(os.Stderr, "tidied up") })
			die()
			os.Exit(0)
		}
	}
	os.Exit(m.Run())
}

// A program that panics holds what it drives, then says what it dies of.
func TestWhatIsDrivenIsHeldBeforeAPanicGoesOn(t *testing.T) {
	for name := range dyings {
		t.Run(name, func(t *testing.T) {
			out, err := exec.Command(os.Args[0], name).CombinedOutput()
			var exit *exec.ExitError
			require.ErrorAs(t, err, &exit, "%s", out)
			assert.Equal(t, 2, exit.ExitCode())
			assert.Regexp(t, "^held\ntidied up\npanic: planted", string(out))
			assert.Contains(t, string(out), "deadman_test.go", "where it was")
		})
	}
}

// Where nothing is driven a server goes on, and one answer is missing.
func TestAnAnswerThatFailsWhileNothingIsDriven(t *testing.T) {
	s := httptest.NewServer(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) {
		defer deadman.Answered()
		if r.URL.Path == "/bad" {
			panic(http.ErrAbortHandler)
		}
	}))
	defer s.Close()
	_, err := http.Get(s.URL + "/bad")
	assert.Error(t, err)
	r, err := http.Get(s.URL + "/good")
	require.NoError(t, err)
	assert.NoError(t, r.Body.Close())
}

// What is released is not called any more.
func TestWhatIsReleasedIsNotHeld(t *testing.T) {
	held := errors.New("held")
	release := deadman.OnPanic(func() { panic(held) })
	release()
	assert.PanicsWithValue(t, "planted", func() { deadman.Guard(func() { panic("planted") }) })
}

// The second process is not for people.
func TestTheSecondProcessIsNotForHands(t *testing.T) {
	for _, args := range [][]string{{"hold-the-rig"}, {"hold-the-rig", "{", "x", "18"}, {"hold-the-rig", `{"Hold":"zz"`}} {
		code, asked := deadman.Asked(args)
		assert.True(t, asked)
		assert.Equal(t, 2, code)
	}
	_, asked := deadman.Asked([]string{"drive"})
	assert.False(t, asked)
	_, asked = deadman.Asked(nil)
	assert.False(t, asked)
}
